// SPDX-License-Identifier: GPL-3.0-or-later
// Which BLAS the program has loaded: the direct solver is several times slower with a plain one.
#pragma once
#include <string>

namespace felloe {

/// File that the loaded dgemm comes from, links resolved; "" when it is part of the program.
std::string blas_file();

/// The loaded BLAS in words: its own description with the number of threads (OpenBLAS), or its
/// file.
std::string blas_in_use();

/// What to tell the user about the BLAS in this file; "" when it is a fast one. The reference BLAS
/// and GSL's have no blocking for the cache and no SIMD.
std::string slow_blas_warning(const std::string &file);

}  // namespace felloe
