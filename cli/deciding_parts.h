// SPDX-License-Identifier: GPL-3.0-or-later
// The little of a rated wheel that its lives hang on.
#pragma once
#include <map>
#include <vector>

#include "cli/analysis.h"
#include "cli/unit_solutions.h"

namespace felloe {

/// The places that decide a life, or could when stress or strength of places change by up to 40 %;
/// of each the points with at least 0.9 of its largest stress under some test.
/// @param rated  with its hot spots and fields; nodes that the fields give no stress are left out
std::map<Held, std::vector<RatedPlace>> deciding_parts(const Analysis &rated, const UnitSolutions &,
                                                       const Case &);

}  // namespace felloe
