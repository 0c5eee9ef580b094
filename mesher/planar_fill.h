// SPDX-License-Identifier: GPL-3.0-or-later
// Fills a planar polygon with quadrilaterals whose boundary nodes are prescribed.
#pragma once
#include <array>
#include <vector>

#include "mesher/vec3.h"

namespace felloe {

/// Quads of the plane, corners counterclockwise.
struct PlanarQuads {
  std::vector<Vec2> nodes;
  std::vector<std::array<int, 4>> quads;
};

/// One way of meshing the coarse polygon.
struct FillTrial {
  int algorithm = 6;     ///< Gmsh's Mesh.Algorithm: 5 Delaunay, 6 frontal, 11 packing
  bool blossom = false;  ///< pairs the triangles by perfect matching instead of greedily
};

/// The trials that are worth running, all repeatable bit by bit. Algorithms 8 and 9 are not: what
/// was meshed before changes their result.
std::vector<FillTrial> fill_trials();

/// Fills the region inside the first loop (counterclockwise) and outside the others (clockwise).
/// Each loop has an even number of nodes. The region is meshed at double size (every second node,
/// from the first one), then each quad is split in four and each triangle in three, so that only
/// quads remain and every edge between neighbours of a loop is one edge of the mesh.
/// Nodes: those of the loops in the given order, then the inner ones. Empty where the trial fails.
PlanarQuads planar_fill(const std::vector<std::vector<Vec2>> &loops, const FillTrial &trial);

}  // namespace felloe
