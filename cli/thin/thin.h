// SPDX-License-Identifier: GPL-3.0-or-later
// The command `felloe thin`.
#pragma once
#include <string>

#include "cli/case.h"
#include "cli/run.h"

namespace felloe {

struct ThinOptions {
  RunOptions run;        ///< output folder, --json, --quiet
  double density = 0.5;  ///< of the mesh that searches
  int max_solves = 60;
};

/// Finds, verifies, prints and writes the folder: case.toml (stated thickness), thin.json,
/// results.json (the wheel at the lower tolerance of its sheet). Returns 0 when every rig test is
/// passed with error bars, else 1. Throws Error for what the user can repair.
int run_thin(const Case &, const ThinOptions &);

/// The report for people, and the one for programs.
struct ThinOutcome;
struct DesignSpace;
std::string thin_summary(const Case &, const DesignSpace &, const ThinOutcome &, double density);
std::string thin_json(const Case &, const DesignSpace &, const ThinOutcome &, double density);

}  // namespace felloe
