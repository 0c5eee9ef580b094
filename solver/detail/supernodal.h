// SPDX-License-Identifier: GPL-3.0-or-later
// Numbers of a supernodal Cholesky factor, with some unknowns left uneliminated.
#pragma once
#include <vector>

#include "solver/detail/cholmod_view.h"

namespace felloe::detail {

/// Fills CHOLMOD's symbolic supernodal factor with numbers; CHOLMOD's own solves work on it.
///
/// Unknowns marked in `stays` must be last in the elimination (each one's ancestors stay too). They
/// are not eliminated: their part of the factor is the unit matrix, and S = A_BB - L_BI L_BI^T is
/// returned, dense, column by column, lower triangle, in the order of `border`. CHOLMOD alone would
/// have to factor S as well, only to multiply it out again.
///
/// Left-looking by supernodes (E. Ng and B. Peyton, Block sparse Cholesky algorithms on advanced
/// uniprocessor computers, 1993; from memory). Independent subtrees run on one processor each, the
/// rest with all processors inside BLAS. The sums have a fixed order.
///
/// @param values  of the matrix's entries, in place of its own
/// @param border  the unknowns that stay, ascending in the factor's order
/// @param n_eliminated  receives of each supernode: its columns that do not stay
/// Throws NotPositiveDefinite.
std::vector<double> fill_factor(const SymmetricMatrix &, const std::vector<double> &values,
                                const std::vector<long> &border, cholmod_factor &, cholmod_common &,
                                std::vector<int> &n_eliminated);

}  // namespace felloe::detail
