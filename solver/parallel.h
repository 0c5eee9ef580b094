// SPDX-License-Identifier: GPL-3.0-or-later
// A fixed share of the work for each processor.
#pragma once
#include <algorithm>
#include <exception>
#include <thread>
#include <vector>

namespace felloe {

/// Processors that the present thread may use; 0: all. Work started in parallel shares them.
inline thread_local int processors_here = 0;

inline int n_threads() {
  if (processors_here > 0) return processors_here;
  return static_cast<int>(std::clamp(std::thread::hardware_concurrency(), 1u, 16u));
}

/// While it lives, the present thread uses so many processors.
class ProcessorsHere {
 public:
  explicit ProcessorsHere(int n) : before_(processors_here) { processors_here = n; }
  ~ProcessorsHere() { processors_here = before_; }
  ProcessorsHere(const ProcessorsHere &) = delete;
  ProcessorsHere &operator=(const ProcessorsHere &) = delete;

 private:
  int before_;
};

/// Calls share(t) for t = 0 ... n - 1 at the same time, each on its part of the processors; the
/// first exception is rethrown.
template <class F>
void in_parallel(int n, F &&share) {
  const int processors = std::max(1, n_threads() / n);
  std::vector<std::exception_ptr> failures(n);
  const auto guarded = [&](int t) {
    const ProcessorsHere own(processors);
    try {
      share(t);
    } catch (...) {
      failures[t] = std::current_exception();
    }
  };
  std::vector<std::thread> threads;
  for (int t = 1; t < n; ++t) threads.emplace_back(guarded, t);
  guarded(0);
  for (std::thread &thread : threads) thread.join();
  for (const std::exception_ptr &failure : failures)
    if (failure) std::rethrow_exception(failure);
}

/// One share for each processor.
template <class F>
void in_parallel(F &&share) {
  in_parallel(n_threads(), share);
}

/// Calls body(i) for begin <= i < end, split into equal ranges.
template <class F>
void parallel_for(int begin, int end, F &&body) {
  const long n = end - begin, shares = n_threads();
  in_parallel([&](int t) {
    for (long i = begin + n * t / shares; i < begin + n * (t + 1) / shares; ++i)
      body(static_cast<int>(i));
  });
}

}  // namespace felloe
