// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/detail/blas_threads.h"

#include <dlfcn.h>

#include <mutex>

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

// The number of threads is one for the whole process: the first one alive sets it, the last one
// puts it back.
std::mutex counting;
int n_alive = 0, n_before = 0;

}  // namespace

OneBlasThread::OneBlasThread() {
  if (!threads_now() || !set_threads()) return;
  const std::lock_guard<std::mutex> lock(counting);
  if (n_alive++ > 0) return;
  n_before = threads_now()();
  set_threads()(1);
}

OneBlasThread::~OneBlasThread() {
  if (!threads_now() || !set_threads()) return;
  const std::lock_guard<std::mutex> lock(counting);
  if (--n_alive == 0) set_threads()(n_before);
}

}  // namespace felloe::detail
