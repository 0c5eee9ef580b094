// SPDX-License-Identifier: GPL-3.0-or-later
// Views, scaling and ordering shared by the factorisations.
#include "solver/detail/cholmod_view.h"

#include <algorithm>
#include <cmath>

namespace felloe::detail {
namespace {

/// Pattern of the groups: groups are joined when any of their unknowns are.
SymmetricMatrix group_pattern(const SymmetricMatrix &a, const std::vector<int> &group) {
  const long n_groups = *std::max_element(group.begin(), group.end()) + 1L;
  std::vector<std::vector<int>> columns(n_groups);
  for (long c = 0; c < a.size(); ++c) {
    // The lower triangle of a group holds the same neighbours in each of its columns, mostly.
    for (long e = a.column_start[c]; e < a.column_start[c + 1]; ++e) {
      const int low = std::min(group[c], group[a.row[e]]),
                high = std::max(group[c], group[a.row[e]]);
      std::vector<int> &column = columns[low];
      if (column.empty() || column.back() != high) column.push_back(high);
    }
  }
  SymmetricMatrix pattern;
  pattern.column_start.push_back(0);
  for (std::vector<int> &column : columns) {
    std::sort(column.begin(), column.end());
    column.erase(std::unique(column.begin(), column.end()), column.end());
    pattern.row.insert(pattern.row.end(), column.begin(), column.end());
    pattern.column_start.push_back(static_cast<long>(pattern.row.size()));
    std::vector<int>().swap(column);
  }
  return pattern;
}

/// Unknowns in the order of their groups.
std::vector<long> expanded(const std::vector<long> &group_order, const std::vector<int> &group) {
  std::vector<long> start(group_order.size() + 1, 0), position(group_order.size());
  for (std::size_t k = 0; k < group_order.size(); ++k) position[group_order[k]] = k;
  for (const int g : group) ++start[position[g] + 1];
  for (std::size_t k = 0; k < group_order.size(); ++k) start[k + 1] += start[k];
  std::vector<long> order(group.size());
  for (std::size_t u = 0; u < group.size(); ++u) order[start[position[group[u]]]++] = u;
  return order;
}

}  // namespace

cholmod_sparse cholmod_view(const SymmetricMatrix &a, const double *value) {
  cholmod_sparse s{};
  s.nrow = s.ncol = a.size();
  s.nzmax = a.row.size();
  s.p = const_cast<long *>(a.column_start.data());
  s.i = const_cast<long *>(a.row.data());
  s.x = const_cast<double *>(value);
  s.stype = -1;
  s.itype = CHOLMOD_LONG;
  s.xtype = value ? CHOLMOD_REAL : CHOLMOD_PATTERN;
  s.dtype = CHOLMOD_DOUBLE;
  s.sorted = s.packed = 1;
  return s;
}

cholmod_dense cholmod_view(double *x, long n, int n_columns) {
  cholmod_dense d{};
  d.nrow = d.d = n;
  d.ncol = n_columns;
  d.nzmax = n * n_columns;
  d.x = x;
  d.xtype = CHOLMOD_REAL;
  d.dtype = CHOLMOD_DOUBLE;
  return d;
}

SymmetricMatrix submatrix(const SymmetricMatrix &a, const std::vector<long> &new_number) {
  SymmetricMatrix sub;
  sub.column_start.push_back(0);
  sub.row.reserve(a.row.size());
  sub.value.reserve(a.value.size());
  for (long c = 0; c < a.size(); ++c) {
    if (new_number[c] < 0) continue;
    for (long e = a.column_start[c]; e < a.column_start[c + 1]; ++e) {
      if (new_number[a.row[e]] < 0) continue;
      sub.row.push_back(new_number[a.row[e]]);
      if (!a.value.empty()) sub.value.push_back(a.value[e]);
    }
    sub.column_start.push_back(static_cast<long>(sub.row.size()));
  }
  return sub;
}

std::vector<double> unit_diagonal_scaling(const SymmetricMatrix &a) {
  std::vector<double> scaling(a.size());
  for (long c = 0; c < a.size(); ++c) {
    const long first = a.column_start[c];
    const bool present = first < a.column_start[c + 1] && a.row[first] == c && a.value[first] > 0;
    if (!present) throw NotPositiveDefinite(0);
    scaling[c] = 1 / std::sqrt(a.value[first]);
  }
  return scaling;
}

std::vector<double> scaled_values(const SymmetricMatrix &a, const std::vector<double> &scaling) {
  std::vector<double> values(a.value.size());
  for (long c = 0; c < a.size(); ++c)
    for (long e = a.column_start[c]; e < a.column_start[c + 1]; ++e)
      values[e] = a.value[e] * scaling[c] * scaling[a.row[e]];
  return values;
}

std::vector<long> nested_dissection(const SymmetricMatrix &a, const std::vector<int> &group,
                                    cholmod_common &common) {
  const SymmetricMatrix pattern = group_pattern(a, group);
  cholmod_sparse groups = cholmod_view(pattern, nullptr);
  std::vector<long> order(pattern.size());
  if (!cholmod_l_metis(&groups, nullptr, 0, 1, order.data(), &common)) return {};
  return expanded(order, group);
}

std::vector<long> interior_order(const SymmetricMatrix &a, const std::vector<long> &border,
                                 const std::vector<int> &group, cholmod_common &common) {
  const long n = a.size();
  std::vector<long> number(n, 0), interior;
  for (const long b : border) number[b] = -1;
  std::vector<int> interior_group, renumbered(n, -1);
  int n_groups = 0;
  for (long u = 0; u < n; ++u) {
    if (number[u] < 0) continue;
    number[u] = static_cast<long>(interior.size());
    interior.push_back(u);
    int &g = renumbered[group.empty() ? u : group[u]];
    if (g < 0) g = n_groups++;
    interior_group.push_back(g);
  }
  std::vector<long> order = nested_dissection(submatrix(a, number), interior_group, common);
  for (long &u : order) u = interior[u];
  return order;
}

}  // namespace felloe::detail
