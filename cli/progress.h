// SPDX-License-Identifier: GPL-3.0-or-later
// Steps of a run on stderr, each with the time it took.
#pragma once
#include <chrono>
#include <cstdio>
#include <string>

namespace felloe {

class Progress {
 public:
  explicit Progress(bool quiet) : quiet_(quiet) {}

  /// Begins a step; the one before ends here.
  void step(const std::string &what) {
    finish();
    running_ = true;
    step_start_ = clock::now();
    if (!quiet_) std::fprintf(stderr, "  %-52s", what.c_str());
  }
  /// Adds a remark to the running step's line.
  void remark(const std::string &text) { remark_ = text; }
  /// Ends the last step.
  void finish() {
    if (running_ && !quiet_)
      std::fprintf(stderr, " %6.1f s  %s\n", seconds_since(step_start_), remark_.c_str());
    running_ = false;
    remark_.clear();
  }
  /// Prints a line of its own.
  void note(const std::string &text) {
    finish();
    if (!quiet_) std::fprintf(stderr, "  %s\n", text.c_str());
  }
  double total_seconds() const { return seconds_since(start_); }

 private:
  using clock = std::chrono::steady_clock;
  static double seconds_since(clock::time_point t) {
    return std::chrono::duration<double>(clock::now() - t).count();
  }
  bool quiet_, running_ = false;
  std::string remark_;
  clock::time_point start_ = clock::now(), step_start_ = start_;
};

}  // namespace felloe
