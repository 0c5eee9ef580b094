// SPDX-License-Identifier: GPL-3.0-or-later
// The complete analysis of one case.
#pragma once
#include <string>

#include "cli/case.h"

namespace felloe {

struct RunOptions {
  std::string output;  ///< folder to make
  bool json = false;   ///< results.json on stdout as well; progress goes to stderr
  bool quiet = false;  ///< no progress
};

/// Meshes, solves, rates and writes the output folder. Returns the exit code: 0 every rig test
/// passed (or none was asked), 1 one failed. Throws Error for everything that the user can repair.
int run_case(const Case &, const RunOptions &);

}  // namespace felloe
