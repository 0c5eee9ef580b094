// SPDX-License-Identifier: GPL-3.0-or-later
// What the steps of a run cost: time on the wall and on the processors.
#pragma once
#include <chrono>
#include <string>

#include "post/results.h"

namespace felloe {

/// What a step is for: finding the figures, or writing them down.
enum class Work { analysis, writing };

class Stopwatch {
 public:
  /// Begins a step; the one before ends here. Steps of one name are added up.
  void start(const std::string &step, Work);
  void stop();
  /// So far.
  RunTimes times() const;
  double wall_s() const;  ///< since this stopwatch was made

 private:
  using Clock = std::chrono::steady_clock;
  const Clock::time_point begin_ = Clock::now();
  Clock::time_point step_begin_ = begin_;
  double processor_at_begin_ = 0;
  RunTimes times_;
  StepTime *running_ = nullptr;
};

}  // namespace felloe
