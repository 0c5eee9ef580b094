// SPDX-License-Identifier: GPL-3.0-or-later
// The checks behind layout(): every problem becomes one line, none stops the others.
#pragma once
#include <string>
#include <vector>

#include "mesher/layout.h"

namespace felloe {

using Problems = std::vector<std::string>;

/// A length as messages show it: one decimal.
std::string shown(double x);

/// Plain values: positive lengths, counts, angles. Geometry is only built when these hold.
void check_values(const Wheel &, Problems &);

/// The disc's bends against its thickness: the inside of a bend must not reach the bend's centre.
void check_bends(const WheelLayout &, Problems &);

/// Bolt and vent holes inside their stretches, ligaments of at least one thickness.
void check_holes(const WheelLayout &, Problems &);

/// Disc flange and weld against the rim's well. False when the disc does not end in a flange at all,
/// so that no rim can be placed round it.
bool check_flange(const WheelLayout &, Problems &);

/// No contact of disc and rim but the flange, no fold of the disc onto itself. Sampled.
void check_clearance(const WheelLayout &, Problems &);

}  // namespace felloe
