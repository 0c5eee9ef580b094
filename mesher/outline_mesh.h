// SPDX-License-Identifier: GPL-3.0-or-later
// Meshes a plane region inside one outline of straights and arcs, fine where the outline is.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "mesher/mesh.h"

namespace felloe {

/// The way from the end of the one before to `to`; with a centre an arc.
struct OutlineEdge {
  Vec2 to{};                          ///< [mm]
  double size_from = 1, size_to = 1;  ///< of cells at both ends [mm], changing geometrically
  std::optional<Vec2> centre;
  bool clockwise = false;
  std::string name;  ///< of the edge in the mesh; empty: none
};

/// Quadratic quads, curved along arcs. The outline runs counterclockwise in (r, z) and ends where
/// it starts. Error when no quads without a corner turned over can be found.
SectionMesh outline_mesh(const Vec2 &start, const std::vector<OutlineEdge> &outline, Part part);

}  // namespace felloe
