// SPDX-License-Identifier: GPL-3.0-or-later
// The frozen topology of the disc: quadrilaterals in the chart (s, theta), holes left open.
#pragma once
#include <array>
#include <vector>

#include "mesher/layout.h"

namespace felloe {

/// A chart node knows its master parameters, never coordinates. Nodes of an O-grid ring carry the
/// ring parameters; the wall of a hole lies at xi = 0, the ring's outer border at xi = 1, where the
/// node's (s, theta) hold as well.
struct ChartNode {
  double s = 0, theta = 0;  ///< on the mid-surface [mm], [rad] in [0, 2 pi)
  int hole = -1;            ///< index into ChartMesh::holes of the ring that owns the node, or -1
  double xi = 0;            ///< 0 wall ... 1 outer border
  int spoke = 0;            ///< number of the ring's radial line, 0 ... n_phi - 1
};

/// Corner nodes in the order (0,0) (1,0) (0,1) (1,1) of local coordinates (a, b). The normal
/// d/da x d/db points to eta > 0. In ring cells a runs with xi and b along the spokes.
struct ChartQuad {
  std::array<int, 4> nodes{};
  int hole = -1;  ///< ring of this hole, or -1: straight in (sigma, theta)
};

/// Outer border of a hole's ring: one chart point (sigma, theta) for each radial line; between two
/// lines the border is straight in the chart. theta is continuous round the hole (may leave
/// [0, 2 pi)).
struct HoleRing {
  std::vector<double> phi;                    ///< direction of each radial line [rad], ascending
  std::vector<std::array<double, 2>> border;  ///< (sigma, theta) at each radial line
  double centre_sigma = 0, centre_theta = 0;
};

struct ChartMesh {
  /// First those of the circles: node c n_theta + k is number k of circle c, at 2 pi k / n_theta.
  /// Only where the phase of a row of holes is no multiple of 2 pi / n_theta the circles near that
  /// row are turned, by half a division at most; those of the flange never are.
  std::vector<ChartNode> nodes;
  std::vector<ChartQuad> quads;
  std::vector<Hole> holes;      ///< bolts, then vents, as in the layout
  std::vector<HoleRing> rings;  ///< one for each hole
  int n_theta = 0;              ///< divisions of every structured circle
  int symmetry = 1;             ///< quads and nodes map onto themselves under 2 pi / symmetry
  std::vector<double>
      circles;  ///< s of all structured circles, ascending (bands' borders included)
  std::vector<double> flange_s;  ///< the circles of the flange stretch, first at layout.flange_s0
};

/// Lengths that steer the first mesh, already scaled by its density, and how often its edges are
/// then halved. [mm]
struct MeshSize {
  int halvings = 0;          ///< every halving cuts the cells along the sheets in four
  double edge = 8;           ///< wanted edge length of plain stretches
  int ring_layers = 3;       ///< cells between a hole's wall and its ring's border
  double ring_first = 0.14;  ///< first ring cell's width over the hole's radius
  int ring_edges = 16;       ///< fewest cells round a hole
  double weld_edge = 1.5;    ///< circles next to the weld: edge length along the meridian
  int disc_layers = 2;       ///< cells through the disc's thickness
  int rim_layers = 1;
};

/// Sizes for a density from 0.25 to 4: 1 is the default, 2 halves every edge in the sheets' plane.
/// The first mesh has a density below 0.8 and is halved from there, so that the meshes of a
/// density above 0.8 and of half of it are nested: the same shape, every edge cut in two. Layers
/// through the thickness double at 3.1.
MeshSize mesh_size(double density);

/// Smallest n_theta of the first mesh that suits hole counts, symmetry and the edge length at the
/// vents.
int circle_divisions(const WheelLayout &, const MeshSize &);

/// Meshes the disc's chart from the bore to the flange end. Structured bands with n_theta divisions
/// a circle; bands with holes carry O-grid rings and a filled remainder (Gmsh), one half pitch
/// meshed, mirrored and copied. Same input, same arrays. Not for two threads at once (Gmsh).
/// Throws Error when a ring does not fit into its band or the fill stays below the quality gate.
ChartMesh chart_mesh(const WheelLayout &, const MeshSize &);

}  // namespace felloe
