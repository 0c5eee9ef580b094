// SPDX-License-Identifier: GPL-3.0-or-later
// Numbers of a supernodal Cholesky factor, with a border left uneliminated.
#pragma once
#include <vector>

#include "solver/detail/dense_triangle.h"
#include "solver/detail/supernodal_pattern.h"

namespace felloe::detail {

/// Fills the pattern with numbers: L of everything before the border, and on the border
/// S = A_BB - L_BI L_BI^T, dense, its lower triangle.
///
/// Left-looking by supernodes (E. Ng and B. Peyton, Block sparse Cholesky algorithms on advanced
/// uniprocessor computers, 1993; from memory). Independent subtrees run on one processor each, the
/// rest with all processors inside BLAS. The sums have a fixed order.
///
/// @param numbers  receives L, by supernodes; as many as the end of pattern.values_begin. What lies
///                 above the diagonal is left alone
/// @param border   receives S
/// Throws NotPositiveDefinite.
void fill_factor(const SymmetricMatrix &, const SupernodalPattern &pattern, double *numbers,
                 const DenseTriangle &border);

}  // namespace felloe::detail
