// SPDX-License-Identifier: GPL-3.0-or-later
// What a rating without a solve takes over from the results.json of the run.
#pragma once
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "post/results.h"

namespace felloe {

/// What only the run can know.
struct StoredResults {
  /// Error bars of hot spots [%], by test and feature: a stress keeps its relative error.
  std::map<std::pair<std::string, std::string>, double> errors;
  MeshConvergence convergence;  ///< the two meshes behind them
  std::vector<std::string> cautions, assumptions;
};

/// @param json  text of results.json
/// @param file  its name, for errors
/// Throws Error when the text is not that of a results.json.
StoredResults read_stored_results(const std::string &json, const std::string &file);

/// Adds error bars, and the cautions and assumptions that arose in the solves of the run, to a
/// rating whose own ones are there already, in the same words.
/// @param press_fit  one still acts; without, what the run said of it is left out
void add_stored(const StoredResults &, bool press_fit, Results &);

}  // namespace felloe
