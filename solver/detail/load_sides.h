// SPDX-License-Identifier: GPL-3.0-or-later
// Both sides of K u = f for each load, and the solve that brings them together.
#pragma once
#include <array>
#include <vector>

#include "solver/detail/body.h"

namespace felloe::detail {

/// Both sides of K u = f for one load, in nodal components: u = C q + g. Displacement and internal
/// forces are empty while nothing has moved.
struct LoadSides {
  std::vector<double> displacement, load, internal;  ///< u, f, K u
  std::array<double, 6> motion{};
  double residual = 0;
};

/// The load, and what held values and interference move before anything is solved.
LoadSides sides_at_rest(const Mesh &, const std::vector<Axes> &, const ConstraintMap &,
                        const Body &, const LoadCase &);

/// Solves for all loads at once, and once more for what rounding left when it is worth it.
/// @param extent  largest distance of a node from the origin [mm]
void solve_sides(const FactoredBody &, const ConstraintMap &, const Body &,
                 const std::vector<LoadCase> &, double extent, std::vector<LoadSides> &);

}  // namespace felloe::detail
