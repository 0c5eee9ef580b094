// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that a slow BLAS is told from a fast one by its file.
#include "solver/blas_check.h"

#include <gtest/gtest.h>

namespace felloe {
namespace {

// File names: Debian 12 packages libblas3, libgslcblas0, libopenblas0-pthread, libblis4-pthread,
// libatlas3-base.
TEST(BlasCheck, ReferenceAndGslAreSlow) {
  for (const char *file : {"/usr/lib/x86_64-linux-gnu/blas/libblas.so.3.11.0",
                           "/usr/lib/x86_64-linux-gnu/libgslcblas.so.0.0.0"})
    EXPECT_NE(slow_blas_warning(file).find(file), std::string::npos) << file;
}

TEST(BlasCheck, OptimisedOnesPass) {
  for (const char *file : {"/usr/lib/x86_64-linux-gnu/openblas-pthread/libblas.so.3",
                           "/usr/lib/x86_64-linux-gnu/openblas-pthread/libopenblasp-r0.3.21.so",
                           "/usr/lib/x86_64-linux-gnu/blis-pthread/libblas.so.3",
                           "/usr/lib/x86_64-linux-gnu/atlas/libblas.so.3", ""})
    EXPECT_EQ(slow_blas_warning(file), "") << file;
}

TEST(BlasCheck, LoadedLibraryIsNamed) {
  EXPECT_FALSE(blas_file().empty());
  EXPECT_FALSE(blas_in_use().empty());
}

}  // namespace
}  // namespace felloe
