// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/blas_check.h"

#include <dlfcn.h>

#include <cstdlib>

namespace felloe {

std::string blas_file() {
  void *routine = dlsym(RTLD_DEFAULT, "dgemm_");
  Dl_info where{};
  if (!routine || !dladdr(routine, &where) || !where.dli_fname) return "";
  char *resolved = realpath(where.dli_fname, nullptr);
  const std::string file = resolved ? resolved : where.dli_fname;
  std::free(resolved);
  return file;
}

std::string blas_in_use() {
  using Text = char *(*)();
  using Number = int (*)();
  const auto description = reinterpret_cast<Text>(dlsym(RTLD_DEFAULT, "openblas_get_config"));
  const auto threads = reinterpret_cast<Number>(dlsym(RTLD_DEFAULT, "openblas_get_num_threads"));
  const std::string file = blas_file();
  if (!description || !slow_blas_warning(file).empty()) return file;
  std::string text = description();
  if (threads) text += ", " + std::to_string(threads()) + " threads";
  return text;
}

std::string slow_blas_warning(const std::string &file) {
  // Debian keeps every BLAS in a folder of its own: blas/ is the reference, atlas/, blis-*/,
  // openblas-*/ and MKL's are fast.
  const bool reference = file.find("/blas/libblas.so") != std::string::npos ||
                         file.find("libgslcblas") != std::string::npos ||
                         file.find("librefblas") != std::string::npos;
  if (!reference) return "";
  return "slow BLAS loaded (" + file +
         "): solving takes several times longer; install libopenblas0-pthread, or choose it with "
         "update-alternatives";
}

}  // namespace felloe
