// SPDX-License-Identifier: GPL-3.0-or-later
// The stress of a hot spot over one turn of the load.
#pragma once
#include <vector>

#include "post/criteria.h"
#include "post/rated_places.h"
#include "post/turn_history.h"

namespace felloe {

constexpr int turn_states = 72;  ///< of a history that is one harmonic

/// Normal stress on the plane of largest normal-stress amplitude (row "normal stress plane") at
/// even angles of the load, from 0: half its range is the amplitude that hot spots report [MPa].
std::vector<double> normal_stress_turn(const TurnHistory &, int node, const FatigueConstants &);

/// Structural stress across a weld toe, likewise [MPa].
std::vector<double> structural_stress_turn(const TurnHistory &, const ToePoint &);

}  // namespace felloe
