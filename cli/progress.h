// SPDX-License-Identifier: GPL-3.0-or-later
// Steps of a run on stderr, each with the time it took; on a terminal the running step's line
// renews itself and says how much time is left.
#pragma once
#include <chrono>
#include <memory>
#include <string>

#include "cli/outlook.h"
#include "cli/stopwatch.h"

namespace felloe {

class Progress {
 public:
  explicit Progress(bool quiet);
  ~Progress();  ///< ends the line of a step that an Error has left behind
  Progress(const Progress &) = delete;
  Progress &operator=(const Progress &) = delete;

  /// Begins a step; the one before ends here.
  void step(const std::string &what, Work = Work::analysis);
  /// Adds a remark to the running step's line.
  void remark(const std::string &text) { remark_ = text; }
  /// Ends the last step.
  void finish();
  /// Prints a line of its own.
  void note(const std::string &text);
  /// From now on the whole work is expected to take that long [s], until a better figure comes. 0:
  /// not known.
  void expect(double seconds);
  double total_seconds() const { return stopwatch_.wall_s(); }
  RunTimes times() const { return stopwatch_.times(); }

  Outlook outlook;  ///< what expect() is told from

 private:
  using clock = std::chrono::steady_clock;
  static double seconds_since(clock::time_point t) {
    return std::chrono::duration<double>(clock::now() - t).count();
  }
  struct Ticker;
  bool quiet_, running_ = false;
  std::string remark_, step_;
  clock::time_point step_start_ = clock::now();
  Stopwatch stopwatch_;
  std::unique_ptr<Ticker> ticker_;  ///< on a terminal only
};

/// "25 s", "1:20 min", "2:05 h".
std::string duration_text(double seconds);

/// The line of a running step: its name, seconds so far, and what is left of the whole work; cut to
/// `width` characters. left <= 0: not known.
std::string running_line(const std::string &step, double seconds, double left, std::size_t width);

}  // namespace felloe
