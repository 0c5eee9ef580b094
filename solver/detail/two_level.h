// SPDX-License-Identifier: GPL-3.0-or-later
// The preconditioner: Chebyshev smoothing on columns of nodes, and the coarse shell solved
// directly.
#pragma once
#include "solver/detail/admissible.h"
#include "solver/detail/cell_operator.h"
#include "solver/detail/coarse_space.h"
#include "solver/detail/column_blocks.h"

namespace felloe::detail {

struct SmootherSettings {
  int degree = 5;     ///< products with the stiffness before and after the coarse correction
  double range = 20;  ///< largest eigenvalue over the smallest that is smoothed
};

/// Symmetric positive definite on the admissible displacements; all in single precision, the coarse
/// factor in double. All processes together.
class TwoLevel {
 public:
  TwoLevel(const CellOperator<float> &, const ColumnBlocks &, CoarseSpace &, const Admissible &,
           SmootherSettings = {});

  /// z = M r; r and z have the vector size of the single-precision operator. r is used up.
  void apply(float *r, float *z);

  double largest_eigenvalue() const { return largest_; }

 private:
  /// d = first direction for the residual r, then x and r follow; at the end x = x + the last d.
  void smooth(float *r, float *x, bool keep_residual);
  double estimated_largest();

  const CellOperator<float> &k_;
  const ColumnBlocks &blocks_;
  CoarseSpace &coarse_;
  const Admissible &admissible_;
  SmootherSettings settings_;
  double largest_ = 0;
  AlignedVector<float> d_, y_;
};

}  // namespace felloe::detail
