// SPDX-License-Identifier: GPL-3.0-or-later
// What moves the life most, as far as it can be told without another solve.
#pragma once
#include <vector>

#include "cli/analysis.h"
#include "cli/unit_solutions.h"

namespace felloe {

/// Rates the case with one thing changed at a time: load, bolt preload, interference, edges,
/// roughness, weld class, survival probability, and all stresses by their error bar. Largest change
/// of a test's design life first. Thickness is not among them: it needs a solve.
/// Looks at the points of every place with at least 0.9 of its largest stress under some test, for
/// speed; the change may not make another point the worst.
/// @param rated  on stored nodes, with its hot spots and fields
std::vector<Sensitivity> sensitivities(const Analysis &rated, const UnitSolutions &, const Case &);

/// The same at the end of a run, from the histories that it stores; none where the rating needs
/// more than these (notch support), or without any.
std::vector<Sensitivity> sensitivities_of_run(const Analysis &, const Case &);

}  // namespace felloe
