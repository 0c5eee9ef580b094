// SPDX-License-Identifier: GPL-3.0-or-later
// The fillet's triangle in the (r, z) section, cut into three blocks of quads.
#pragma once
#include <array>
#include <vector>

#include "mesher/layout.h"
#include "mesher/mesh.h"

namespace felloe {

/// Nodes on the disc's end face carry `layer` (half layers from eta = -1), nodes on the rim carry
/// `station` (half cells from the root); both are shared with those parts. The root has both.
struct WeldNode {
  Vec2 rz{};
  int layer = -1, station = -1;
};

struct WeldSection {
  std::vector<WeldNode> nodes;
  std::vector<std::array<int, 9>> cells;  ///< as in SectionMesh
  std::vector<CellFace> face;             ///< edges on the weld's free face, cell numbers from 0
  int root = 0, toe_disc = 0, toe_rim = 0;
};

/// `layers` (even): cells through the disc's thickness, and cells along the leg on the rim.
WeldSection weld_section(const WheelLayout &, int layers);

}  // namespace felloe
