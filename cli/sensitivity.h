// SPDX-License-Identifier: GPL-3.0-or-later
// What moves the life most, as far as it can be told without another solve.
#pragma once
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "cli/analysis.h"
#include "cli/unit_solutions.h"

namespace felloe {

/// d ln(stress) / d ln(what changes) of places, by rig test and feature; a place that is not there
/// keeps its stress.
using StressSlopes = std::map<std::pair<std::string, std::string>, double>;

/// The next lower and the next higher class by stress range that the same weld toe might have: for
/// toes and for the same metal. nullptr: there is none.
std::pair<const WeldClass *, const WeldClass *> next_weld_classes(const WeldClass &);

/// Rates the case with one thing changed at a time: load, bolt preload, interference, edges,
/// roughness, weld class, survival probability, all stresses by their error bar, and the disc's
/// sheet at both ends of its tolerance ([thin] tolerance_mm) by `thickness`. Largest change of a
/// test's design life first.
/// Looks at deciding_parts() alone, for speed; the change may not make another point the worst.
/// @param rated      on stored nodes, with its hot spots and fields
/// @param thickness  slopes of stress in the thickness of the disc; empty: no such rows
std::vector<Sensitivity> sensitivities(const Analysis &rated, const UnitSolutions &, const Case &,
                                       const StressSlopes &thickness = {});

/// The same at the end of a run, from the histories that it has stored; none without states.
std::vector<Sensitivity> sensitivities_of_run(const Analysis &, StoredHistories, const Case &);

}  // namespace felloe
