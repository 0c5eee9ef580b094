// SPDX-License-Identifier: GPL-3.0-or-later
// From unit solutions to what every node feels in a case's rig tests, and the rules of its rating.
#pragma once
#include <vector>

#include "cli/unit_solutions.h"

namespace felloe {

RatingRules rating_rules(const Case &);

/// Bending moment [N mm] or radial force [N] of a rig test under the case's rated load.
double test_load(const RigTest &, const Case &);

/// One turn under rig test number i of the case. Mesh and solutions must outlive it.
TurnHistory turn_of(const Mesh &, const Case &, std::size_t i, const UnitSolutions &);

/// Adds to the fields of every rig test its turn at even angles and one deformed shape.
void keep_turns(Analysis &, const Case &, const UnitSolutions &);

/// What the rating says of a bonded hub does not hold for one that touches.
void forget_bond(std::vector<HotSpot> &);

}  // namespace felloe
