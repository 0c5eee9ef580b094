// SPDX-License-Identifier: GPL-3.0-or-later
// Which nodes of a wheel may be rated, and as what: edges, bends, faces, weld toes. Singular
// corners are left out here, once, so that no later step can rate them by raw stress.
#pragma once
#include <string>
#include <utility>
#include <vector>

#include "mesher/layout.h"
#include "mesher/mesh.h"

namespace felloe {

enum class Surface { parent, vent_edge, bolt_edge, weld_toe };

/// A point of a weld toe: structural stress 5/3 near - 2/3 far, across the toe.
struct ToePoint {
  int near_node = 0;  ///< 0.4 t from the toe
  int far_node = 0;   ///< 1.0 t from the toe
  Vec3 across{};      ///< unit vector along the surface, square to the toe
  Vec3 toe{};         ///< the toe itself [mm]
};

struct RatedPlace {
  std::string feature;  ///< "nave bend", "vent edge", "weld toe disc", ...
  Part part = Part::disc;
  Surface surface = Surface::parent;
  std::vector<int> nodes;            ///< all but weld toes
  std::vector<ToePoint> toe_points;  ///< weld toes only
  std::vector<std::string> notes;
};

/// How the model is held: the rim in the clamp ring of a bending machine, or the hub.
enum class Held { rim, hub, plate };

/// All rated places of one sector of the mesh's symmetry.
///
/// Left out, because their stress grows without bound under refinement: the bonded hub face with
/// half a thickness round its border, nodes on the weld and closer than 0.4 t to its toes and root,
/// the ends of the press fit, the held outer edge or clamp ring with one thickness round it.
/// At the hub face border the stress half a thickness outside is rated and says so.
std::vector<RatedPlace> rated_places(const WheelLayout &, const Mesh &, Held);

/// "outboard", "inboard", "rim side" ... of a node, from its part and eta.
std::string side_of(const WheelLayout &, const Mesh &, int node);

}  // namespace felloe
