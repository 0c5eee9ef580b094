// SPDX-License-Identifier: GPL-3.0-or-later
// Follows the cells' edges through the thickness.
#include "solver/detail/cell_columns.h"

#include <algorithm>
#include <cmath>
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

/// Where along the cuts a point lies.
std::vector<double> along_cuts(const Mesh &mesh, const std::vector<int> &nodes) {
  Vec3 low = mesh.nodes[nodes[0]], high = low;
  double x = 0, y = 0;
  for (const int n : nodes) {
    const Vec3 &p = mesh.nodes[n];
    const double r = std::max(std::hypot(p[0], p[1]), 1e-300);
    x += p[0] / r / nodes.size();
    y += p[1] / r / nodes.size();
    for (int i = 0; i < 3; ++i) {
      low[i] = std::min(low[i], p[i]);
      high[i] = std::max(high[i], p[i]);
    }
  }
  int longest = 0;
  for (int i = 1; i < 3; ++i)
    if (high[i] - low[i] > high[longest] - low[longest]) longest = i;
  // The mean direction from the axis nearly vanishes when the body surrounds it.
  const bool surrounds = std::hypot(x, y) < 0.3;
  std::vector<double> positions;
  for (const int n : nodes) {
    const Vec3 &p = mesh.nodes[n];
    positions.push_back(surrounds ? std::atan2(p[1], p[0]) : p[longest]);
  }
  return positions;
}

/// Stacks are not torn apart. `foot` numbers the stacks, `foot_node` is their lowest middle node.
std::vector<int> shares_of_cells(const Mesh &mesh, const std::vector<int> &foot,
                                 const std::vector<int> &foot_node, int n_shares) {
  std::vector<int> share(foot.size(), 0);
  if (n_shares == 1) return share;
  const std::vector<double> position = along_cuts(mesh, foot_node);
  std::vector<int> sorted(foot.size());
  std::iota(sorted.begin(), sorted.end(), 0);
  std::sort(sorted.begin(), sorted.end(), [&](int a, int b) {
    if (position[a] != position[b]) return position[a] < position[b];
    return foot[a] != foot[b] ? foot[a] < foot[b] : a < b;
  });
  const long n = static_cast<long>(sorted.size());
  for (long i = 0; i < n; ++i) {
    const int c = sorted[i];
    const bool same = i > 0 && foot[sorted[i - 1]] == foot[c];
    share[c] = same ? share[sorted[i - 1]] : static_cast<int>(i * n_shares / n);
  }
  return share;
}

/// Columns joined by the press fit go to the first of their owners.
void join_tied(const Mesh &mesh, const std::vector<int> &column_of_node, std::vector<int> &owner) {
  for (bool changed = true; changed;) {
    changed = false;
    for (const PressFitPair &pair : mesh.press_fit) {
      const int a = column_of_node[pair.disc_node], b = column_of_node[pair.rim_node];
      if (a < 0 || b < 0 || owner[a] == owner[b]) continue;
      owner[a] = owner[b] = std::min(owner[a], owner[b]);
      changed = true;
    }
  }
}

/// First of each of n equal values in an ascending sequence; one more at the end.
std::vector<int> firsts(const std::vector<int> &ascending, int n) {
  std::vector<int> first;
  for (int s = 0; s <= n; ++s)
    first.push_back(static_cast<int>(std::lower_bound(ascending.begin(), ascending.end(), s) -
                                     ascending.begin()));
  return first;
}

}  // namespace

CellColumns cell_columns(const Mesh &mesh, int n_shares) {
  const auto [axis, links] = chosen_links(mesh);
  CellColumns columns;
  columns.loose = links.loose;
  columns.places.resize(mesh.cells.size());
  for (std::size_t c = 0; c < mesh.cells.size(); ++c)
    columns.places[c] = seen_along(mesh.cells[c], axis);

  // The layers of a stack share their middle column: cells are ordered by who touches it first.
  std::vector<int> foot(mesh.cells.size()), foot_node(mesh.cells.size());
  std::vector<int> rank(mesh.nodes.size(), -1);
  for (std::size_t c = 0; c < mesh.cells.size(); ++c) {
    int n = columns.places[c][4];
    while (links.below[n] >= 0) n = links.below[n];
    if (rank[n] < 0) rank[n] = static_cast<int>(c);
    foot[c] = rank[n];
    foot_node[c] = n;
  }
  const std::vector<int> share = shares_of_cells(mesh, foot, foot_node, n_shares);
  columns.order.resize(mesh.cells.size());
  std::iota(columns.order.begin(), columns.order.end(), 0);
  std::stable_sort(columns.order.begin(), columns.order.end(), [&](int a, int b) {
    return share[a] != share[b] ? share[a] < share[b] : foot[a] < foot[b];
  });
  std::vector<int> sorted;
  for (const int c : columns.order) sorted.push_back(share[c]);
  columns.first_cell = firsts(sorted, n_shares);

  std::vector<int> bottom, owner, column_of_node(mesh.nodes.size(), -1);
  for (const int c : columns.order)
    for (const int node : columns.places[c]) {
      if (column_of_node[node] >= 0) continue;
      int n = node;
      while (links.below[n] >= 0) n = links.below[n];
      for (int up = n; up >= 0; up = links.above[up])
        column_of_node[up] = static_cast<int>(bottom.size());
      bottom.push_back(n);
      owner.push_back(share[c]);
    }
  join_tied(mesh, column_of_node, owner);
  std::vector<int> by_owner(bottom.size());
  std::iota(by_owner.begin(), by_owner.end(), 0);
  std::stable_sort(by_owner.begin(), by_owner.end(),
                   [&](int a, int b) { return owner[a] < owner[b]; });
  sorted.clear();
  for (const int c : by_owner) sorted.push_back(owner[c]);
  columns.first_column = firsts(sorted, n_shares);

  columns.place.assign(mesh.nodes.size(), -1);
  columns.start.push_back(0);
  for (const int c : by_owner) {
    for (int n = bottom[c]; n >= 0; n = links.above[n]) {
      columns.place[n] = columns.n_places();
      columns.node.push_back(n);
      columns.column.push_back(columns.n_columns());
    }
    columns.start.push_back(columns.n_places());
    columns.longest = std::max(columns.longest, columns.start.end()[-1] - columns.start.end()[-2]);
  }
  for (auto &places : columns.places)
    for (int &p : places) p = columns.place[p];
  return columns;
}

CellColumns portion(const CellColumns &whole, int first_share, int last_share) {
  CellColumns own;
  own.loose = whole.loose;
  own.longest = whole.longest;
  const int first_cell = whole.first_cell[first_share];
  for (int s = first_share; s <= last_share; ++s) {
    own.first_cell.push_back(whole.first_cell[s] - first_cell);
    own.first_column.push_back(whole.first_column[s] - whole.first_column[first_share]);
  }
  own.order.assign(whole.order.begin() + first_cell,
                   whole.order.begin() + whole.first_cell[last_share]);

  const int first = whole.first_column[first_share], last = whole.first_column[last_share];
  std::vector<int> ghosts;
  for (const int c : own.order)
    for (const int p : whole.places[c])
      if (whole.column[p] < first || whole.column[p] >= last) ghosts.push_back(whole.column[p]);
  std::sort(ghosts.begin(), ghosts.end());
  ghosts.erase(std::unique(ghosts.begin(), ghosts.end()), ghosts.end());

  own.place.assign(whole.place.size(), -1);
  own.start.push_back(0);
  const auto take = [&](int column) {
    for (int p = whole.start[column]; p < whole.start[column + 1]; ++p) {
      own.place[whole.node[p]] = own.n_places();
      own.node.push_back(whole.node[p]);
      own.column.push_back(own.n_columns());
    }
    own.start.push_back(own.n_places());
  };
  for (int c = first; c < last; ++c) take(c);
  for (const int c : ghosts) take(c);
  own.places.resize(whole.places.size());
  for (const int c : own.order)
    for (int a = 0; a < 27; ++a) own.places[c][a] = own.place[whole.node[whole.places[c][a]]];
  return own;
}

}  // namespace felloe::detail
