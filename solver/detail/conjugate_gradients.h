// SPDX-License-Identifier: GPL-3.0-or-later
// Conjugate gradients in double precision round a single-precision preconditioner.
#pragma once
#include "solver/detail/admissible.h"
#include "solver/detail/cell_operator.h"
#include "solver/detail/two_level.h"

namespace felloe::detail {

struct Iteration {
  int count = 0;
  double residual = 0;  ///< relative, in the norm of nodal forces
};

/// Solves p K p x = b for admissible b from x = 0; b is used up and x has the operator's vector
/// size. Ends at the tolerance or after so many iterations.
Iteration solve_by_conjugate_gradients(const CellOperator<double> &, const Admissible &, TwoLevel &,
                                       long single_vector_size, double *b, double *x,
                                       double tolerance, int most);

}  // namespace felloe::detail
