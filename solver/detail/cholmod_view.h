// SPDX-License-Identifier: GPL-3.0-or-later
// Our arrays as CHOLMOD's, without a copy.
#pragma once
#include <suitesparse/cholmod.h>

#include <vector>

#include "solver/detail/sparse_cholesky.h"

namespace felloe::detail {

static_assert(sizeof(long) == sizeof(SuiteSparse_long));

/// CHOLMOD does not write to a view. value null: pattern only.
cholmod_sparse cholmod_view(const SymmetricMatrix &, const double *value);
/// n x n_columns, column by column.
cholmod_dense cholmod_view(double *x, long n, int n_columns);

/// The unknowns with new_number >= 0, which must ascend; values when `a` has them.
SymmetricMatrix submatrix(const SymmetricMatrix &a, const std::vector<long> &new_number);

/// 1 / sqrt of the diagonal. Throws NotPositiveDefinite when a diagonal entry is not positive.
std::vector<double> unit_diagonal_scaling(const SymmetricMatrix &);
/// Values of scaling A scaling.
std::vector<double> scaled_values(const SymmetricMatrix &, const std::vector<double> &scaling);
/// Nested dissection (METIS) of the groups; unknowns of a group stay together.
std::vector<long> nested_dissection(const SymmetricMatrix &, const std::vector<int> &group,
                                    cholmod_common &);

/// The same of the unknowns that are not in the border; their numbers in the order of elimination.
/// Empty when it fails. No group: every unknown on its own.
std::vector<long> interior_order(const SymmetricMatrix &, const std::vector<long> &border,
                                 const std::vector<int> &group, cholmod_common &);

}  // namespace felloe::detail
