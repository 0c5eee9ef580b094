// SPDX-License-Identifier: GPL-3.0-or-later
// C^T f of forces on few nodal components.
#pragma once
#include <algorithm>

#include "solver/detail/constraint_map.h"
#include "solver/detail/sparse_vector.h"

namespace felloe::detail {

/// Calls add(reduced unknown, force) for every share of C^T f; an unknown may come several times.
template <class Add>
void reduce(const ConstraintMap &map, const SparseVector &f, Add &&add) {
  for (std::size_t e = 0; e < f.size(); ++e)
    if (map.unknown[f.at[e]] >= 0) add(map.unknown[f.at[e]], f.value[e]);
  if (map.n_motions == 0) return;
  for (std::size_t k = 0; k < map.adapter_components.size(); ++k) {
    const auto found = std::lower_bound(f.at.begin(), f.at.end(), map.adapter_components[k]);
    if (found == f.at.end() || *found != map.adapter_components[k]) continue;
    const double force = f.value[found - f.at.begin()];
    for (int m = 0; m < map.n_motions; ++m) add(map.n_masters + m, map.adapter_rows[k][m] * force);
  }
}

}  // namespace felloe::detail
