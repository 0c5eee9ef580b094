// SPDX-License-Identifier: GPL-3.0-or-later
// Loads that are turned or mirrored images of one another.
#pragma once
#include <vector>

#include "solver/detail/sparse_vector.h"

namespace felloe::detail {

/// Which load's solution is that of a load, too, and where.
struct LoadImage {
  int original = 0;        ///< number of the load
  std::vector<int> wedge;  ///< wedge w of this load is wedge[w] of the original
};

/// A ring of equal wedges, every other one mirrored, is turned into itself by two wedges at a time,
/// and mirrored by each plane between two wedges. Positions of a rolling load come in such pairs,
/// and positions farther apart than a sector are mere repetitions.
///
/// @param loads    each [wedge][unknown], in coordinates that turn and mirror with the wedge
/// @param n        unknowns of a wedge
/// @param n_wedges even
/// @return of each load the first one that it is an image of; itself when there is none. Forces
///         count as equal when they differ by no more than 1e-12 of all.
std::vector<LoadImage> load_images(const std::vector<SparseVector> &loads, long n, int n_wedges);

/// Every load its own original.
std::vector<LoadImage> no_images(int n_loads, int n_wedges);

}  // namespace felloe::detail
