// SPDX-License-Identifier: GPL-3.0-or-later
// Cuts the disc by circles s = const into structured bands and bands with holes.
#pragma once
#include <string>
#include <vector>

#include "mesher/chart_mesh.h"

namespace felloe {

/// A row of equal holes on one circle, with the space that its rings may take.
struct HoleRow {
  std::string name;  ///< "bolt holes" or "vent holes"
  std::vector<Hole> holes;
  int first = 0;                         ///< number of holes[0] in ChartMesh::holes
  double wall_low = 0, wall_high = 0;    ///< sigma that the widest wall spans
  double space_low = 0, space_high = 0;  ///< sigma of the nearest borders on both sides
  double ring_width = 0;                 ///< widest ring in the chart [-]
};

/// The rows of a layout in order of s.
/// Throws Error when a wall crosses a bend, the hub face's border or another row, or when no ring
/// fits between a wall and its neighbours.
std::vector<HoleRow> hole_rows(const WheelLayout &, const MeshSize &);

/// Neighbouring circles bound a structured band, or a band with holes.
struct Bands {
  std::vector<double> circles;  ///< s, ascending
  std::vector<int> row;  ///< of each band: index into the rows, or -1; one fewer than circles
};

Bands bands(const WheelLayout &, const MeshSize &, const std::vector<HoleRow> &, int n_theta);

/// Angle by which the nodes of each circle are turned against 2 pi k / n_theta [rad], at most half
/// a division: as the holes of a row stand, where those are not on the grid already; 0 on the
/// flange. The structured bands in between take the difference evenly in sigma. All 0 where no
/// structured band stands in between.
std::vector<double> circle_shifts(const WheelLayout &, const Bands &, const std::vector<HoleRow> &,
                                  int n_theta);

/// True when the disc ends in a flange on the rim.
bool has_flange(const WheelLayout &);

}  // namespace felloe
