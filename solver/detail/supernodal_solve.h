// SPDX-License-Identifier: GPL-3.0-or-later
// Triangular solves with a supernodal factor that leaves a border uneliminated.
#pragma once
#include <vector>

#include "solver/detail/supernodal_pattern.h"

namespace felloe::detail {

/// Works in place on right-hand sides stored row by row, in the factor's order, so that every
/// supernode is one matrix product whatever the number of columns. Runs on the calling thread.
class SupernodalSolve {
 public:
  /// Both must outlive this.
  SupernodalSolve(const SupernodalPattern &, const double *numbers);

  /// x := L^-1 x before the border; what is left over is taken off the border's rows.
  void forward(double *x, int n_columns) const;
  /// The border's rows hold their values; the others become solutions of L^T y = x.
  void backward(double *x, int n_columns) const;

 private:
  struct Supernode {
    const double *value;
    const int *rows;  ///< below the columns
    int first, n_columns, n_rows, n_below;
  };
  std::vector<Supernode> nodes_;
  int most_below_ = 0;
};

}  // namespace felloe::detail
