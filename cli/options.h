// SPDX-License-Identifier: GPL-3.0-or-later
// The command line.
#pragma once
#include <string>
#include <vector>

#include "cli/check.h"
#include "cli/fit.h"
#include "cli/rate.h"
#include "cli/run.h"
#include "cli/sweep/sweep.h"

namespace felloe {

enum class Command { check, run, sweep, thin, rate, fit, list, help, version };

struct Options {
  Command command = Command::help;
  std::string topic;  ///< of help and list; empty: all
  bool json = false;  ///< of list
  CheckOptions check;
  std::string case_path;
  RunOptions run;
  SweepOptions sweep;
  RateOptions rate;
  FitOptions fit;
  double density = 0;  ///< run: in place of [mesh] density; thin: of the search; 0: not given
};

/// Throws Error for an unknown command or option (with the nearest one), a missing or unusable
/// value.
Options read_options(int argc, const char *const *argv);

/// The text of `felloe help topic` in lines of that width; the overview for an empty topic. Throws
/// Error for an unknown one.
std::string help_text(const std::string &topic, std::size_t width);

}  // namespace felloe
