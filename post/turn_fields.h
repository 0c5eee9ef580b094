// SPDX-License-Identifier: GPL-3.0-or-later
// What some nodes do at even angles of one turn, for files that play it.
#pragma once
#include <string>
#include <vector>

#include "post/turn_history.h"

namespace felloe {

/// Single precision: a viewer shows no more.
struct TurnStep {
  double angle_deg = 0;             ///< of the load
  std::vector<float> displacement;  ///< x y z of each node [mm]
  std::vector<float> stress;        ///< XX YY ZZ XY YZ XZ of each node [MPa]
};

struct TurnFields {
  std::string test;
  std::vector<int> nodes;  ///< of the mesh
  std::vector<TurnStep> steps;
};

/// Stress and displacement of the nodes at no more than `most_steps` even angles from 0, the turn's
/// end left out. Of a rolling load every n-th of its positions. No displacements where the history
/// has none.
TurnFields turn_fields(const TurnHistory &, std::vector<int> nodes, int most_steps);

/// Displacement of nodes 0 ... n - 1 with the load at the angle [deg] (rolling: at the position
/// nearest to it) [mm]; empty where the history has none.
std::vector<Vec3> motion_at(const TurnHistory &, int n_nodes, double angle_deg);

}  // namespace felloe
