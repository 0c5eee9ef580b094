// SPDX-License-Identifier: GPL-3.0-or-later
// Smallest eigenpairs of K x = lambda M x from the factor of K + shift M.
#pragma once
#include <vector>

#include "solver/detail/sparse_cholesky.h"

namespace felloe::detail {

struct Eigenpairs {
  std::vector<double> value;   ///< lambda, ascending
  std::vector<double> vector;  ///< one after the other, x^T M x = 1
  /// |K x - lambda M x| in the norm of (K + shift M)^-1, over sqrt(lambda + shift): a true value
  /// lies within residual (lambda + shift) of lambda.
  std::vector<double> residual;
};

/// The matrices of the problem, shifted so that they have a factor.
struct ShiftedPencil {
  const SymmetricMatrix &shifted;  ///< K + shift M
  const SymmetricMatrix &mass;     ///< M
  double shift = 0;                ///< >= 0
  const SparseCholesky &factor;    ///< of `shifted`
};

/// The `count` eigenpairs of smallest lambda, multiple values as often as they occur.
///
/// Lanczos with implicit restarts on (K + shift M)^-1 M (ARPACK, dsaupd in mode 3), then a search
/// for what Lanczos, which starts from one vector, may have left out of multiple values: inverse
/// iteration of a random block orthogonal to everything found.
/// Throws Error when Lanczos does not converge.
Eigenpairs smallest_eigenpairs(const ShiftedPencil &, int count);

}  // namespace felloe::detail
