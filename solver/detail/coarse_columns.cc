// SPDX-License-Identifier: GPL-3.0-or-later
// Carriers of each node, from the first cell that has it.
#include "solver/detail/coarse_columns.h"

#include <algorithm>

namespace felloe::detail {
namespace {

/// Corner numbers (0 or 2) between which a local number lies.
std::vector<int> ends(int i) { return i == 1 ? std::vector<int>{0, 2} : std::vector<int>{i}; }

/// Corners of the cell that carry its node; in cells with columns those of the node's own layer.
std::vector<int> corners_of(int node, bool loose) {
  const int k = node / 9;
  std::vector<int> corners;
  for (const int c : loose ? ends(k) : std::vector<int>{k})
    for (const int b : ends(node / 3 % 3))
      for (const int a : ends(node % 3)) corners.push_back(a + 3 * b + 9 * c);
  return corners;
}

}  // namespace

CoarseColumns coarse_columns(const Mesh &mesh, const CellColumns &columns) {
  const auto point = [&](int place) -> const Vec3 & { return mesh.nodes[columns.node[place]]; };
  CoarseColumns coarse;
  std::vector<int> number(columns.n_columns(), -1);
  for (const auto &places : columns.places)
    for (const int corner : {0, 2, 6, 8, 18, 20, 24, 26})
      number[columns.column[places[corner]]] = 0;
  for (int c = 0; c < columns.n_columns(); ++c) {
    if (number[c] < 0) continue;
    number[c] = coarse.n_columns();
    const Vec3 &first = point(columns.start[c]), &last = point(columns.start[c + 1] - 1);
    coarse.column.push_back(c);
    coarse.centre.push_back(scale(0.5, add(first, last)));
    coarse.along.push_back(subtract(last, first));
  }

  // Cells with columns have the first word on their nodes.
  std::vector<std::array<int, 2>> source(columns.n_places(), {-1, 0});
  for (const bool loose : {false, true})
    for (const int c : columns.order)
      if (bool(columns.loose[c]) == loose)
        for (int a = 0; a < 27; ++a)
          if (source[columns.places[c][a]][0] < 0) source[columns.places[c][a]] = {c, a};

  coarse.start.push_back(0);
  for (int p = 0; p < columns.n_places(); ++p) {
    const auto [cell, node] = source[p];
    coarse.source.push_back(cell);
    const std::vector<int> corners = corners_of(node, columns.loose[cell]);
    Vec3 mean{};
    for (const int a : corners)
      mean = add(mean, scale(1.0 / corners.size(), point(columns.places[cell][a])));
    for (const int a : corners) {
      const int place = columns.places[cell][a], j = number[columns.column[place]];
      const Vec3 &x = point(place);
      const Vec3 arm =
          add(subtract(point(p), scale(0.5, add(mean, x))), subtract(x, coarse.centre[j]));
      Carrier carrier;
      carrier.column = j;
      for (int i = 0; i < 3; ++i) carrier.arm[i] = static_cast<float>(arm[i]);
      coarse.carrier.push_back(carrier);
    }
    coarse.start.push_back(static_cast<int>(coarse.carrier.size()));
  }
  return coarse;
}

}  // namespace felloe::detail
