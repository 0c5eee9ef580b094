// SPDX-License-Identifier: GPL-3.0-or-later
// How far a sweep is, on stderr: one line that renews itself on a terminal, else one now and then.
#pragma once
#include <string>

#include "cli/sweep/store.h"

namespace felloe {

/// The line: designs done, rate of this process's time, time left, best so far.
std::string progress_line(const Counts &, long finished_before, double seconds,
                          const std::string &best);

class SweepProgress {
 public:
  SweepProgress(const Store &, const Counts &at_start, bool quiet);
  ~SweepProgress();
  void watch(const Counts &);
  void note(const std::string &line);

 private:
  void show(const Counts &);
  const Store &store_;
  Counts at_start_, last_;
  bool quiet_, terminal_, open_line_ = false;
  double start_, shown_ = 0;
};

}  // namespace felloe
