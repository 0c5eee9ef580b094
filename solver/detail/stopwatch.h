// SPDX-License-Identifier: GPL-3.0-or-later
// Seconds between two looks.
#pragma once
#include <chrono>
#include <utility>

namespace felloe::detail {

class Stopwatch {
 public:
  /// Seconds since the last call, or since it was made.
  double lap() {
    const auto now = std::chrono::steady_clock::now();
    return std::chrono::duration<double>(now - std::exchange(last_, now)).count();
  }

 private:
  std::chrono::steady_clock::time_point last_ = std::chrono::steady_clock::now();
};

}  // namespace felloe::detail
