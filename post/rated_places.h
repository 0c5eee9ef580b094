// SPDX-License-Identifier: GPL-3.0-or-later
// Which nodes of a wheel may be rated, and as what: edges, bends, faces, weld toes. Singular
// corners are left out here, once, so that no later step can rate them by raw stress.
#pragma once
#include <string>
#include <utility>
#include <vector>

#include "mesher/layout.h"
#include "mesher/mesh.h"
#include "post/stress_sum.h"
#include "post/weld_extrapolation.h"

namespace felloe {

enum class Surface { parent, vent_edge, bolt_edge, weld_toe };

/// A point of a weld toe: its structural stress across the toe [MPa] as a sum over the stresses of
/// nodes in front of it.
struct ToePoint : StressSum {
  Vec3 toe{};     ///< the toe itself [mm]
  Vec3 across{};  ///< unit vector along the surface there, square to the toe
};

struct RatedPlace {
  std::string feature;  ///< "nave bend", "vent edge", "weld toe disc", ...
  Part part = Part::disc;
  Surface surface = Surface::parent;
  std::vector<int> nodes;            ///< all but weld toes
  std::vector<ToePoint> toe_points;  ///< weld toes only
  std::vector<std::string> notes;
  double thickness = 0;  ///< of the plate at a weld toe [mm]
};

/// How the model is held: the rim in the clamp ring of a bending machine, or the hub.
enum class Held { rim, hub, plate };

/// All rated places of one sector of the mesh's symmetry.
///
/// Left out, because their stress grows without bound under refinement: the bonded hub face with
/// half a thickness round its border, nodes on the weld and closer than 0.4 t to its toes and root,
/// the ends of the press fit, the held outer edge or clamp ring with one thickness round it.
/// At the hub face border the stress half a thickness outside is rated and says so.
/// @param read_out  of the structural stress at weld toes; Error when the sheet in front of a toe
/// is
///                  too short for it
std::vector<RatedPlace> rated_places(const WheelLayout &, const Mesh &, Held,
                                     const ToeReadOut &read_out = toe_read_outs().front());

/// The toes of the weld alone, as rated_places() has them.
std::vector<RatedPlace> weld_toe_places(const WheelLayout &, const Mesh &, const ToeReadOut &);

/// "outboard", "inboard", "rim side" ... of a node, from its part and eta.
std::string side_of(const WheelLayout &, const Mesh &, int node);

}  // namespace felloe
