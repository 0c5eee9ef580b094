// SPDX-License-Identifier: GPL-3.0-or-later
// A fixed share of the work for each processor.
#pragma once
#include <algorithm>
#include <exception>
#include <thread>
#include <vector>

namespace felloe {

inline int n_threads() {
  return static_cast<int>(std::clamp(std::thread::hardware_concurrency(), 1u, 16u));
}

/// Calls share(t) for t = 0 ... n_threads() - 1 at the same time; the first exception is rethrown.
template <class F>
void in_parallel(F &&share) {
  const int n = n_threads();
  std::vector<std::exception_ptr> failures(n);
  const auto guarded = [&](int t) {
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
