// SPDX-License-Identifier: GPL-3.0-or-later
// Triangular solves with a supernodal factor whose last unknowns may stay uneliminated.
#pragma once
#include <vector>

#include "solver/detail/cholmod_view.h"

namespace felloe::detail {

/// Works in place on right-hand sides stored row by row, in the factor's order, so that every
/// supernode is one matrix product whatever the number of columns. Runs on the calling thread.
class SupernodalSolve {
 public:
  /// @param factor        stays owned by the caller and must outlive this
  /// @param n_eliminated  of each supernode: leading columns that are eliminated
  SupernodalSolve(const cholmod_factor &factor, const std::vector<int> &n_eliminated);

  /// x := L^-1 x on the eliminated rows; what is left over is taken off the rows that stay.
  void forward(double *x, int n_columns) const;
  /// Rows that stay hold their values; the others become solutions of L^T y = x.
  void backward(double *x, int n_columns) const;

 private:
  struct Supernode {
    const double *value;  ///< n_rows x n_eliminated at least
    const long *rows;     ///< below the eliminated columns
    int first, n_eliminated, n_rows, n_below;
  };
  std::vector<Supernode> nodes_;
  int most_below_ = 0;
};

}  // namespace felloe::detail
