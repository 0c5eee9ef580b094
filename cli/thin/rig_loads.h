// SPDX-License-Identifier: GPL-3.0-or-later
// The unit loads behind all rig tests of a welded wheel with bonded hub, by ways to hold it.
#pragma once
#include <vector>

#include "cli/case.h"
#include "mesher/unwelded.h"
#include "post/hot_spots.h"
#include "post/turn_history.h"
#include "solver/elastic_model.h"

namespace felloe {

/// A wheel and its mesh, and the same before welding.
struct MeshedWheel {
  WheelLayout layout;
  Mesh mesh;
  UnweldedMesh before;  ///< empty without press fit
};

/// One way to hold the wheel.
enum RigFamily { pressed, hub_held, rim_held, n_rig_families };

/// What is solved in one family; nothing: no loads.
struct RigLoads {
  Supports supports;
  std::vector<LoadCase> loads;
};

/// Prepares the mesh before welding: the line on which its rim is kept in place.
UnweldedMesh before_welding(const Mesh &);

/// Press fit; clamp, inflation and rolling load; cornering moments about x and y.
std::vector<RigLoads> rig_loads(const Case &, const MeshedWheel &, int rolling_positions);

/// Solutions in the order of rig_loads(), all on the nodes of the welded mesh, to what every node
/// feels during one turn. They must outlive it.
TurnHistory rig_turn(const Case &, const RigTest &, const Mesh &,
                     const std::vector<std::vector<Solution>> &);

}  // namespace felloe
