// SPDX-License-Identifier: GPL-3.0-or-later
// Measurements in a process of their own, so that peaks of memory do not mix.
#pragma once
#include <map>
#include <string>
#include <vector>

namespace felloe::bench {

/// What a child process left behind.
struct ChildResult {
  int exit_code = -1;      ///< -1: ended by a signal or could not be started
  bool timed_out = false;  ///< ended by us after the time limit
  double seconds = 0;      ///< wall time of the whole process
  double peak_MB = 0;      ///< largest resident memory, of the process and its waited-for children
  std::string output;      ///< standard output
};

/// Runs a program and waits for it, at most `limit_seconds`. Its errors go to our standard error.
ChildResult run_child(const std::vector<std::string> &words, double limit_seconds);

/// Lines "key value" as numbers; other lines are passed over.
std::map<std::string, double> values_of(const std::string &output);

/// Path of the running program.
std::string own_path();

}  // namespace felloe::bench
