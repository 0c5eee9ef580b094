// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/detail/blas_threads.h"

#include <dlfcn.h>

namespace felloe::detail {
namespace {

using Get = int (*)();
using Set = void (*)(int);

// Looked up at run time: another BLAS does not have them.
Get threads_now() {
  static const auto get = reinterpret_cast<Get>(dlsym(RTLD_DEFAULT, "openblas_get_num_threads"));
  return get;
}
Set set_threads() {
  static const auto set = reinterpret_cast<Set>(dlsym(RTLD_DEFAULT, "openblas_set_num_threads"));
  return set;
}

}  // namespace

OneBlasThread::OneBlasThread() {
  if (!threads_now() || !set_threads()) return;
  before_ = threads_now()();
  set_threads()(1);
}

OneBlasThread::~OneBlasThread() {
  if (before_ > 0) set_threads()(before_);
}

}  // namespace felloe::detail
