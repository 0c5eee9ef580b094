// SPDX-License-Identifier: GPL-3.0-or-later
// `felloe rate`: rates a run again from its stored stresses, without a solve.
#pragma once
#include <string>

namespace felloe {

struct RateOptions {
  std::string folder;      ///< of the run
  std::string case_path;   ///< empty: the run's own case
  std::string output;      ///< folder; empty: none is written
  bool thickness = false;  ///< solves a coarse mesh for what the sheet's thickness does
  bool json = false, quiet = false;
};

/// Prints summary and sensitivities; 1 when a test failed, else 0. Throws Error when the folder
/// holds no stored histories or the case differs in something that needs a solve.
int rate_stored(const RateOptions &);

}  // namespace felloe
