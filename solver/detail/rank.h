// SPDX-License-Identifier: GPL-3.0-or-later
// Rank of a small symmetric positive semidefinite matrix.
#pragma once
#include <vector>

namespace felloe::detail {

/// Number of pivots above 1e-10 times the largest; row-major n x n, diagonal pivoting.
int rank_of_symmetric(std::vector<double> matrix, int n);

}  // namespace felloe::detail
