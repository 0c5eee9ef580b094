// SPDX-License-Identifier: GPL-3.0-or-later
// Both sides of K u = f for each load, and the solve that brings them together.
#pragma once
#include <functional>
#include <vector>

#include "solver/detail/body.h"
#include "solver/detail/solution_checks.h"

namespace felloe::detail {

/// What is known of one load before anything is solved, in nodal components: u = C q + g.
struct LoadSides {
  SparseVector load;           ///< f
  std::vector<double> offset;  ///< g, what held values and interference move; empty: nothing
};

LoadSides sides_at_rest(const Mesh &, const std::vector<Axes> &, const ConstraintMap &,
                        const LoadCase &);

/// Takes what came of a load; its memory is that of the next one afterwards. Called once for each
/// load, from several threads.
using TakeSolved = std::function<void(int load, const SolvedLoad &)>;

/// Solves for all loads at once, and once more for what rounding left of some when it is worth it.
/// K u of all loads together would take more memory than the factor: it is made for a few at a
/// time, which are handed over at once.
/// @param extent  largest distance of a node from the origin [mm]
void solve_sides(const FactoredBody &, const ConstraintMap &, const Body &,
                 const std::vector<LoadCase> &, const std::vector<LoadSides> &, double extent,
                 const TakeSolved &);

}  // namespace felloe::detail
