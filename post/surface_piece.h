// SPDX-License-Identifier: GPL-3.0-or-later
// The outer surface of a mesh as flat triangles between its nodes, as little of it as shows it all.
#pragma once
#include <array>
#include <vector>

#include "mesher/mesh.h"

namespace felloe {

/// One sector of the surface where the rest repeats it, else the whole surface. A node on a sharp
/// edge is one point on either side of it.
struct SurfacePiece {
  int sectors = 1;                               ///< turned copies about z that make up the surface
  std::vector<int> nodes;                        ///< of each point
  std::vector<Vec3> normals;                     ///< of each point, unit, out of the material
  std::vector<std::array<int, 3>> triangles;     ///< of points, anticlockwise seen from outside
  std::vector<int> middles;                      ///< of each triangle the node amid its face
  std::vector<std::array<Vec3, 2>> sharp_edges;  ///< of all sectors [mm]
};

/// @param fields  at the nodes; all must repeat themselves for one sector to be enough
/// @param needed  nodes that become points in any case
/// @param most_points  with more nodes than that on the piece, those in the middle of faces and of
///   their edges are left out, and the surface is that of the cells' corners
SurfacePiece surface_piece(const Mesh &, const std::vector<const std::vector<double> *> &fields,
                           const std::vector<int> &needed, std::size_t most_points);

}  // namespace felloe
