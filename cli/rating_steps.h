// SPDX-License-Identifier: GPL-3.0-or-later
// Rating of a wheel from its unit solutions: the same steps after a solve and on stored stresses.
#pragma once
#include "cli/analysis.h"
#include "cli/unit_solutions.h"

namespace felloe {

/// The rated places for one way to hold the wheel; found once.
const std::vector<RatedPlace> &places_of(Analysis &, const Case &, Held);

/// Rates every rig test of the case into results and fields. Hot spots of all tests stand together,
/// not sorted.
void rate_all_tests(Analysis &, const Case &, const UnitSolutions &, Progress &);

/// What the rating rests on, with sources.
void report_assumptions(Analysis &, const Case &);

}  // namespace felloe
