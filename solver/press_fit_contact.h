// SPDX-License-Identifier: GPL-3.0-or-later
// The disc pressed into the rim: pairs of nodes push, or are apart.
#pragma once
#include <vector>

#include "solver/any_model.h"

namespace felloe {

struct PressedTogether {
  Solution solution;
  std::vector<int> lifted;  ///< disc nodes that are apart from the rim
  int steps = 0;            ///< solves
  /// Of p >= 0, gap >= 0 and p gap = 0: largest offence, forces over the largest force, gaps over
  /// the interference.
  double complementarity_error = 0;
};

/// Unilateral contact without friction at the press-fit pairs: where a tie would have to pull, the
/// pair is let go; where parts would overlap, it is tied again. Every pair that offends changes
/// sides at once; when that stops helping, one of them at a time (Murty's rule), which ends. The
/// energy is convex: the state is unique. Source: Judice and Pires, Computers and Operations
/// Research 21 (1994) 587 (from memory). Pairs that a turn by one sector maps onto each other keep
/// to the same side.
///
/// @param load  with an interference, the same in all sectors
/// Throws Error as AnyModel::solve(), when no pair remains closed, and when no state is found.
PressedTogether pressed_together(const AnyModel &, const Mesh &, Supports, const LoadCase &load);

}  // namespace felloe
