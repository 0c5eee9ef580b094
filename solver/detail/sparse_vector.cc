// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/detail/sparse_vector.h"

#include <algorithm>

namespace felloe::detail {

SparseVector non_zeros(const double *dense, long n) {
  SparseVector v;
  for (long i = 0; i < n; ++i)
    if (dense[i] != 0) v.append(static_cast<int>(i), dense[i]);
  return v;
}

SparseVector summed(std::vector<std::pair<int, double>> entries) {
  std::stable_sort(entries.begin(), entries.end(),
                   [](const auto &a, const auto &b) { return a.first < b.first; });
  SparseVector v;
  for (const auto &[place, entry] : entries)
    if (v.size() > 0 && v.at.back() == place)
      v.value.back() += entry;
    else
      v.append(place, entry);
  return v;
}

void add_to(const SparseVector &v, double *dense) {
  for (std::size_t e = 0; e < v.size(); ++e) dense[v.at[e]] += v.value[e];
}

void clear(const SparseVector &v, double *dense) {
  for (const int i : v.at) dense[i] = 0;
}

}  // namespace felloe::detail
