// SPDX-License-Identifier: GPL-3.0-or-later
// `felloe fit`: from lives on the rig to an S-N curve.
#pragma once
#include <string>

namespace felloe {

struct FitOptions {
  std::string lives;   ///< table of lives
  std::string output;  ///< folder; empty: none is written
  bool weibull = false, staircase = false, json = false;
  double survival_percent = 90, confidence_percent = 95;
  std::string use_for;  ///< word of [[sn_curve]] use_for; empty: sheet face
};

/// Prints the evaluation and, with a folder, writes results.json, lives.svg and, when the loads are
/// stresses, sn_curve.toml. Throws Error for a table that can't be read or tells nothing.
int fit_lives_file(const FitOptions &);

}  // namespace felloe
