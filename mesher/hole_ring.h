// SPDX-License-Identifier: GPL-3.0-or-later
// The wall of a hole in the chart and the O-grid ring between the wall and the ring's border.
#pragma once
#include <array>
#include <vector>

#include "mesher/chart_mesh.h"

namespace felloe {

/// The wall of a hole in the direction phi [rad] round its centre in the chart (phi = 0 along
/// +sigma, pi / 2 along +theta), at eta in [-1, 1].
/// Returns (sigma, theta) of the sheet point whose distance from the hole's axis is
/// hole.wall_radius(eta), to rounding; theta is continuous round the hole. Turning the hole turns
/// the point exactly. Throws Error when the sheet does not reach the wall in that direction.
std::array<double, 2> wall_point(const Sheet &, const Hole &, double phi, double eta);

/// (sigma, theta) of a point of the ring: at the fraction t between the radial lines spoke and
/// spoke + 1 (phi is linear in t, the border is straight in the chart), linear in xi from the wall
/// (xi = 0) to the border (xi = 1).
std::array<double, 2> ring_point(const Sheet &, const Hole &, const HoleRing &, int spoke, double t,
                                 double xi, double eta);

/// Distance of the wall from the hole's centre in the chart [-] in the direction phi, the largest
/// over the thickness (seat cone included).
double widest_wall(const Sheet &, const Hole &, double phi);

/// Ring with n_phi radial lines at equal angles, the first at phi = 0, whose border keeps the
/// chart distance width [-] from the widest wall.
HoleRing hole_ring(const Sheet &, const Hole &, int n_phi, double width);

/// The same ring for a hole of the same shape at the same s and another theta.
HoleRing turned_ring(const HoleRing &, double theta);

/// xi of the layers' borders, from 0 to 1: the first cell is `first` wide when the whole is 1 and
/// the next ones grow by one ratio between 1 and 1.6.
std::vector<double> ring_layer_borders(int layers, double first);

}  // namespace felloe
