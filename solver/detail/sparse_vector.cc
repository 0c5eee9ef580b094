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

std::vector<std::size_t> part_begins(const SparseVector &v, long n, int n_parts) {
  std::vector<std::size_t> begins;
  for (int p = 0; p <= n_parts; ++p)
    begins.push_back(std::lower_bound(v.at.begin(), v.at.end(), p * n) - v.at.begin());
  return begins;
}

void add_to(const SparseVector &v, double *dense) {
  for (std::size_t e = 0; e < v.size(); ++e) dense[v.at[e]] += v.value[e];
}

void clear(const SparseVector &v, double *dense) {
  for (const int i : v.at) dense[i] = 0;
}

}  // namespace felloe::detail
