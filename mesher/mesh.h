// SPDX-License-Identifier: GPL-3.0-or-later
// The finite-element meshes handed to the solver: quadratic hexahedra in 3D, quadratic quads in
// the (r, z) section. Named surfaces and lines, no bare integers.
#pragma once
#include <array>
#include <functional>
#include <map>
#include <string>
#include <vector>

#include "mesher/vec3.h"

namespace felloe {

enum class Part { disc, rim, weld };

/// Face of a cell: 0 a-, 1 a+, 2 b-, 3 b+, 4 c-, 5 c+ of the local coordinates (a, b, c).
/// In section meshes only 0..3 (edges).
struct CellFace {
  int cell = 0, face = 0;
};

/// Two coincident nodes that are not shared: disc flange outside and rim inside, tied in the
/// normal direction (radial) by the press fit.
struct PressFitPair {
  int disc_node = 0, rim_node = 0;
};

/// Where a node sits on its sheet.
struct SheetPoint {
  double s = 0;    ///< arc length of the part's mid-line [mm]; weld nodes: 0
  double eta = 0;  ///< -1 ... 1 through the thickness; weld nodes: 0
};

/// Quadratic hexahedra, 27 nodes each in lexicographic order: node i + 3 j + 9 k lies at
/// (a, b, c) = (i, j, k) / 2 of the unit cube. All nodes lie on the exact geometry.
struct Mesh {
  std::vector<Vec3> nodes;  ///< [mm]
  std::vector<std::array<int, 27>> cells;
  std::vector<Part> parts;  ///< of each cell
  std::map<std::string, std::vector<CellFace>> surfaces;
  std::map<std::string, std::vector<int>> lines;  ///< nodes of each line, in order along it
  /// Exact push-forward: point of a cell at unit coordinates (a, b, c) [mm]. Empty: the quadratic
  /// interpolation of the 27 nodes is the geometry.
  std::function<Vec3(int cell, const Vec3 &unit)> position;

  // wheels only; empty or 1 on other meshes
  std::vector<PressFitPair> press_fit;
  std::vector<Part> node_parts;         ///< of each node: the first of disc, rim, weld that owns it
  std::vector<SheetPoint> node_points;  ///< of each node
  int symmetry = 1;                     ///< maps onto itself under a turn of 2 pi / symmetry
  std::vector<int> turned;              ///< node reached from each node by that turn; empty if 1
  int n_theta = 0;                      ///< divisions of the structured circles
};

/// Section mesh: quadratic quads, 9 nodes each: node i + 3 j at (a, b) = (i, j) / 2.
struct SectionMesh {
  std::vector<Vec2> nodes;  ///< (r, z) [mm]
  std::vector<std::array<int, 9>> cells;
  std::vector<Part> parts;
  std::map<std::string, std::vector<CellFace>> edges;  ///< named as the 3D surfaces
  std::map<std::string, int> points;                   ///< named as the 3D lines
  std::vector<PressFitPair> press_fit;
  std::vector<Part> node_parts;
  std::vector<SheetPoint> node_points;
};

/// The faces of a named surface; Error lists the names that exist.
const std::vector<CellFace> &surface(const Mesh &, const std::string &name);
const std::vector<CellFace> &edge(const SectionMesh &, const std::string &name);
/// The nodes of a named line.
const std::vector<int> &line(const Mesh &, const std::string &name);

/// The 9 node indices of a face, lexicographic in the face's own two coordinates, ordered so that
/// d/du x d/dv points out of the cell.
std::array<int, 9> face_nodes(const Mesh &, const CellFace &);
/// The 3 node indices of a section edge, ordered so that (dr, dz) turned by -90 degrees points out.
std::array<int, 3> edge_nodes(const SectionMesh &, const CellFace &);
/// All distinct nodes of a named surface, ascending.
std::vector<int> surface_nodes(const Mesh &, const std::string &name);
std::vector<int> edge_node_set(const SectionMesh &, const std::string &name);

/// What the checks before solving look at.
struct MeshQuality {
  double min_scaled_jacobian = 0;  ///< over all cells and their corners, 1 = cube corner
  int worst_cell = -1;
  double volume = 0;                        ///< quadratic geometry, 3 x 3 x 3 Gauss points [mm3]
  double min_jacobian_at_gauss_points = 0;  ///< [mm3]; must be positive
};

/// Quality of the mesh, or of the mesh with every cell split into 2^n x 2^n x 2^n children whose
/// points come from the exact push-forward.
MeshQuality mesh_quality(const Mesh &, int refinements = 0);

}  // namespace felloe
