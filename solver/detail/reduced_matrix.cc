// SPDX-License-Identifier: GPL-3.0-or-later
// C^T K C in compressed columns.
#include <algorithm>
#include <functional>
#include <utility>

#include "solver/detail/constraint_map.h"

namespace felloe::detail {
namespace {

/// Calls add(row, column, value) with row >= column for every entry of the lower triangle whose
/// both components have a master.
template <class F>
void for_each_entry(const ConstraintMap &map, const BlockMatrix &k, F &&add) {
  for (int column_node = 0; column_node < k.n_nodes(); ++column_node)
    for (long e = k.column_start[column_node]; e < k.column_start[column_node + 1]; ++e) {
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
    }
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
  std::vector<std::vector<double>> columns;
  for (int m = 0; m < map.n_motions; ++m) {
    std::vector<double> c(map.unknown.size(), 0.0);
    for (std::size_t a = 0; a < map.adapter_components.size(); ++a)
      c[map.adapter_components[a]] = map.adapter_rows[a][m];
    columns.push_back(reduced(map, multiply(k, c)));
  }
  return columns;
}

}  // namespace

SymmetricMatrix reduced(const ConstraintMap &map, const BlockMatrix &k) {
  const auto motions = motion_columns(map, k);
  const auto coupled = [&](int unknown) {
    return std::any_of(motions.begin(), motions.end(),
                       [&](const std::vector<double> &c) { return c[unknown] != 0; });
  };
  std::vector<long> start(map.n_masters + 1, 0);
  for_each_entry(map, k, [&](int, int column, double) { ++start[column + 1]; });
  for (int c = 0; c < map.n_masters; ++c)
    start[c + 1] += start[c] + (coupled(c) ? map.n_motions : 0);

  SymmetricMatrix a;
  a.row.resize(start.back());
  a.value.resize(start.back());
  std::vector<long> next(start.begin(), start.end() - 1);
  for_each_entry(map, k, [&](int row, int column, double value) {
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
    const long end = tidied(a, start[c], start[c + 1], scratch);
    for (long e = start[c]; e < end; ++e, ++to) {
      a.row[to] = a.row[e];
      a.value[to] = a.value[e];
    }
    a.column_start.push_back(to);
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
