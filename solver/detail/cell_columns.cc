// SPDX-License-Identifier: GPL-3.0-or-later
// Follows the cells' edges through the thickness.
#include "solver/detail/cell_columns.h"

#include <algorithm>
#include <numeric>

namespace felloe::detail {
namespace {

constexpr int most_nodes = 17;  ///< of a column: eight cells

/// The cell's nodes with the local axis `axis` as the third direction.
std::array<int, 27> seen_along(const std::array<int, 27> &nodes, int axis) {
  constexpr std::array<int, 3> strides{1, 3, 9};
  const int third = strides[axis], first = strides[(axis + 1) % 3],
            second = strides[(axis + 2) % 3];
  std::array<int, 27> seen;
  for (int k = 0; k < 3; ++k)
    for (int j = 0; j < 3; ++j)
      for (int i = 0; i < 3; ++i)
        seen[i + 3 * j + 9 * k] = nodes[i * first + j * second + k * third];
  return seen;
}

/// Which node lies above and below which.
struct Links {
  std::vector<int> above, below;
  std::vector<char> loose;
};

bool fits(const Links &links, int low, int high) {
  return (links.above[low] == high && links.below[high] == low) ||
         (links.above[low] < 0 && links.below[high] < 0);
}

Links linked(const Mesh &mesh, int axis) {
  Links links;
  links.above.assign(mesh.nodes.size(), -1);
  links.below = links.above;
  links.loose.assign(mesh.cells.size(), 0);
  const auto join = [&](std::size_t c) {
    const auto nodes = seen_along(mesh.cells[c], axis);
    for (int n = 0; n < 18; ++n)
      if (!fits(links, nodes[n], nodes[n + 9])) {
        links.loose[c] = 1;
        return;
      }
    for (int n = 0; n < 18; ++n) {
      links.above[nodes[n]] = nodes[n + 9];
      links.below[nodes[n + 9]] = nodes[n];
    }
  };
  // Sheets first: the weld between them has no thickness.
  for (std::size_t c = 0; c < mesh.cells.size(); ++c)
    if (mesh.parts[c] != Part::weld) join(c);
  for (std::size_t c = 0; c < mesh.cells.size(); ++c)
    if (mesh.parts[c] == Part::weld) join(c);
  return links;
}

bool short_columns(const Links &links) {
  for (std::size_t n = 0; n < links.above.size(); ++n) {
    int length = 1;
    for (int up = links.above[n]; up >= 0; up = links.above[up])
      if (++length > most_nodes) return false;
  }
  return true;
}

struct AxisLinks {
  int axis = 2;
  Links links;
};

AxisLinks chosen_links(const Mesh &mesh) {
  for (const int axis : {2, 1, 0}) {
    Links links = linked(mesh, axis);
    if (short_columns(links)) return {axis, std::move(links)};
  }
  Links none;
  none.above.assign(mesh.nodes.size(), -1);
  none.below = none.above;
  none.loose.assign(mesh.cells.size(), 1);
  return {2, std::move(none)};
}

}  // namespace

CellColumns cell_columns(const Mesh &mesh) {
  const auto [axis, links] = chosen_links(mesh);
  CellColumns columns;
  columns.loose = links.loose;
  columns.places.resize(mesh.cells.size());
  for (std::size_t c = 0; c < mesh.cells.size(); ++c)
    columns.places[c] = seen_along(mesh.cells[c], axis);

  // The layers of a stack share their middle column: cells are ordered by who touches it first.
  std::vector<int> foot(mesh.cells.size()), rank(mesh.nodes.size(), -1);
  for (std::size_t c = 0; c < mesh.cells.size(); ++c) {
    int n = columns.places[c][4];
    while (links.below[n] >= 0) n = links.below[n];
    if (rank[n] < 0) rank[n] = static_cast<int>(c);
    foot[c] = rank[n];
  }
  columns.order.resize(mesh.cells.size());
  std::iota(columns.order.begin(), columns.order.end(), 0);
  std::stable_sort(columns.order.begin(), columns.order.end(),
                   [&](int a, int b) { return foot[a] < foot[b]; });

  columns.place.assign(mesh.nodes.size(), -1);
  columns.start.push_back(0);
  for (const int c : columns.order)
    for (const int node : columns.places[c]) {
      if (columns.place[node] >= 0) continue;
      int n = node;
      while (links.below[n] >= 0) n = links.below[n];
      for (; n >= 0; n = links.above[n]) {
        columns.place[n] = columns.n_places();
        columns.node.push_back(n);
        columns.column.push_back(columns.n_columns());
      }
      columns.start.push_back(columns.n_places());
    }
  for (auto &places : columns.places)
    for (int &p : places) p = columns.place[p];
  return columns;
}

}  // namespace felloe::detail
