// SPDX-License-Identifier: GPL-3.0-or-later
// The outer surface of a mesh as flat quads between its own nodes, for files.
#pragma once
#include <array>
#include <vector>

#include "mesher/mesh.h"

namespace felloe {

struct SurfaceQuads {
  std::vector<int> nodes;                 ///< of the mesh, ascending
  std::vector<std::array<int, 4>> quads;  ///< places in `nodes`, anticlockwise seen from outside
  std::vector<Part> parts;                ///< of each quad
};

/// fine: four quads a face between all of its nodes, every nodal value of the surface stays; else
/// one between its corners, a quarter of the size.
SurfaceQuads surface_quads(const Mesh &, const std::vector<CellFace> &, bool fine);

}  // namespace felloe
