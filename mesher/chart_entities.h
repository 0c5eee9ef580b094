// SPDX-License-Identifier: GPL-3.0-or-later
// Numbers for the vertices, edges and quads of the chart, and the turn that maps it onto itself.
#pragma once
#include <array>
#include <map>
#include <utility>
#include <vector>

#include "mesher/chart_mesh.h"

namespace felloe {

/// Vertices keep their numbers; edges and quads follow. A quadratic mesh of the chart has one node
/// for each entity.
struct ChartEntities {
  explicit ChartEntities(const ChartMesh &);
  int count = 0;
  std::map<std::pair<int, int>, int> edges;  ///< key ascending
  std::vector<std::array<int, 9>> quads;     ///< entities i + 3 j at (a, b) = (i, j) / 2
  int edge(int v, int w) const { return edges.at({v < w ? v : w, v < w ? w : v}); }
};

/// The entity that each one turns into under 2 pi / symmetry; empty when the chart does not map
/// onto itself.
std::vector<int> turned_entities(const ChartMesh &, const ChartEntities &);

}  // namespace felloe
