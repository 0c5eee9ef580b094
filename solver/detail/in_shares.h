// SPDX-License-Identifier: GPL-3.0-or-later
// One thread for each of a given number of shares.
#pragma once
#include <exception>
#include <thread>
#include <vector>

namespace felloe::detail {

/// Calls body(s) for s = 0 ... n - 1 at the same time; the first exception is rethrown.
template <class F>
void in_shares(int n, F &&body) {
  std::vector<std::exception_ptr> failures(n);
  const auto guarded = [&](int s) {
    try {
      body(s);
    } catch (...) {
      failures[s] = std::current_exception();
    }
  };
  std::vector<std::thread> threads;
  for (int s = 1; s < n; ++s) threads.emplace_back(guarded, s);
  guarded(0);
  for (std::thread &thread : threads) thread.join();
  for (const std::exception_ptr &failure : failures)
    if (failure) std::rethrow_exception(failure);
}

}  // namespace felloe::detail
