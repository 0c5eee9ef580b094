// SPDX-License-Identifier: GPL-3.0-or-later
// C^T K C in compressed columns.
#include <algorithm>
#include <functional>
#include <utility>

#include "solver/detail/constraint_map.h"
#include "solver/detail/parallel.h"

namespace felloe::detail {
namespace {

/// Nodes with a component whose master leads others as well: entries of theirs may come into any
/// column, all others into their own, in order.
std::vector<bool> tied_nodes(const ConstraintMap &map) {
  std::vector<int> followers(map.n_masters, -1);
  for (const int u : map.unknown)
    if (u >= 0) ++followers[u];
  std::vector<bool> tied(map.unknown.size() / 3, false);
  for (std::size_t i = 0; i < map.unknown.size(); ++i)
    if (map.unknown[i] >= 0 && followers[map.unknown[i]] > 0) tied[i / 3] = true;
  return tied;
}

/// Calls add(row, column, value) with row >= column for every entry of the lower triangle whose
/// both components have a master. What tied nodes have no part in first, column by column, on
/// several threads at once; then the rest.
template <class F>
void for_each_entry(const ConstraintMap &map, const BlockMatrix &k, const std::vector<bool> &tied,
                    F &&add) {
  const auto of_block = [&](long e, int column_node) {
    const bool diagonal = k.row[e] == column_node;
    const int *columns = map.unknown.data() + 3L * column_node;
    const int *rows = map.unknown.data() + 3L * k.row[e];
    for (int j = 0; j < 3; ++j) {
      if (columns[j] < 0) continue;
      for (int i = diagonal ? j : 0; i < 3; ++i) {
        if (rows[i] < 0) continue;
        // Two tied components of one pair: both triangles fall on the diagonal.
        const bool twice = rows[i] == columns[j] && !(diagonal && i == j);
        add(std::max(rows[i], columns[j]), std::min(rows[i], columns[j]),
            k.block[e][3 * i + j] * (twice ? 2 : 1));
      }
    }
  };
  const auto each = [&](int node, bool with_tied) {
    for (long e = k.column_start[node]; e < k.column_start[node + 1]; ++e)
      if ((tied[node] || tied[k.row[e]]) == with_tied) of_block(e, node);
  };
  parallel_for(0, k.n_nodes(), [&](int node) { each(node, false); });
  if (std::find(tied.begin(), tied.end(), true) == tied.end()) return;
  for (int node = 0; node < k.n_nodes(); ++node) each(node, true);
}

/// Sorts a column and adds up what ties brought together; returns the new end.
long tidied(SymmetricMatrix &a, long begin, long end,
            std::vector<std::pair<long, double>> &scratch) {
  const auto first = a.row.begin() + begin, last = a.row.begin() + end;
  if (std::adjacent_find(first, last, std::greater_equal<long>()) == last) return end;
  scratch.clear();
  for (long e = begin; e < end; ++e) scratch.emplace_back(a.row[e], a.value[e]);
  std::sort(scratch.begin(), scratch.end());
  long to = begin - 1;
  for (const auto &[row, value] : scratch) {
    if (to >= begin && a.row[to] == row) {
      a.value[to] += value;
    } else {
      a.row[++to] = row;
      a.value[to] = value;
    }
  }
  return to + 1;
}

/// K times the six columns of C that belong to the adapter, reduced by C^T: six columns of the
/// reduced matrix.
std::vector<std::vector<double>> motion_columns(const ConstraintMap &map, const BlockMatrix &k) {
  std::vector<std::vector<double>> columns(map.n_motions);
  parallel_for(0, map.n_motions, [&](int m) {
    std::vector<double> c(map.unknown.size(), 0.0);
    for (std::size_t a = 0; a < map.adapter_components.size(); ++a)
      c[map.adapter_components[a]] = map.adapter_rows[a][m];
    columns[m] = reduced(map, multiply(k, c));
  });
  return columns;
}

}  // namespace

SymmetricMatrix reduced(const ConstraintMap &map, const BlockMatrix &k) {
  const auto motions = motion_columns(map, k);
  const auto coupled = [&](int unknown) {
    return std::any_of(motions.begin(), motions.end(),
                       [&](const std::vector<double> &c) { return c[unknown] != 0; });
  };
  const std::vector<bool> tied = tied_nodes(map);
  std::vector<long> start(map.n_masters + 1, 0);
  for_each_entry(map, k, tied, [&](int, int column, double) { ++start[column + 1]; });
  for (int c = 0; c < map.n_masters; ++c)
    start[c + 1] += start[c] + (coupled(c) ? map.n_motions : 0);

  SymmetricMatrix a;
  a.row.resize(start.back());
  a.value.resize(start.back());
  std::vector<long> next(start.begin(), start.end() - 1);
  for_each_entry(map, k, tied, [&](int row, int column, double value) {
    a.row[next[column]] = row;
    a.value[next[column]++] = value;
  });
  for (int c = 0; c < map.n_masters; ++c)
    if (coupled(c))
      for (int m = 0; m < map.n_motions; ++m) {
        a.row[next[c]] = map.n_masters + m;
        a.value[next[c]++] = motions[m][c];
      }

  a.column_start.assign(1, 0);
  std::vector<std::pair<long, double>> scratch;
  long to = 0;
  for (int c = 0; c < map.n_masters; ++c) {
    const long end = tidied(a, start[c], start[c + 1], scratch), n = end - start[c];
    if (to < start[c]) {
      std::copy_n(a.row.begin() + start[c], n, a.row.begin() + to);
      std::copy_n(a.value.begin() + start[c], n, a.value.begin() + to);
    }
    a.column_start.push_back(to += n);
  }
  a.row.resize(to);
  a.value.resize(to);
  for (int c = 0; c < map.n_motions; ++c) {
    for (int r = c; r < map.n_motions; ++r) {
      a.row.push_back(map.n_masters + r);
      a.value.push_back(motions[c][map.n_masters + r]);
    }
    a.column_start.push_back(static_cast<long>(a.row.size()));
  }
  return a;
}

}  // namespace felloe::detail
