// SPDX-License-Identifier: GPL-3.0-or-later
// Direct solution of symmetric positive definite sparse systems, one factor for many right-hand
// sides.
#pragma once
#include <memory>
#include <stdexcept>
#include <vector>

#include "solver/detail/raw_vector.h"

namespace felloe::detail {

/// Lower triangle with diagonal, compressed columns, row indices ascending within a column.
struct SymmetricMatrix {
  std::vector<long> column_start;  ///< n + 1 entries
  RawVector<long> row;
  RawVector<double> value;

  long size() const { return static_cast<long>(column_start.size()) - 1; }
};

/// y = A x for n_columns dense columns stored one after the other.
std::vector<double> multiply(const SymmetricMatrix &, const std::vector<double> &x, int n_columns);

/// The factor met a pivot that is negative, zero, or lost in rounding.
class NotPositiveDefinite : public std::runtime_error {
 public:
  explicit NotPositiveDefinite(double pivot_ratio);
  double pivot_ratio;  ///< smallest over largest pivot of the scaled matrix; 0 when not positive
};

/// Supernodal Cholesky factor of the matrix scaled to a unit diagonal (unknowns with different
/// units are welcome), nested dissection ordering.
class SparseCholesky {
 public:
  /// @param group  of each unknown: unknowns of equal group (the components of a node) are ordered
  ///               together, which makes the ordering several times faster. Numbers from 0. Empty:
  ///               every unknown on its own.
  /// Throws NotPositiveDefinite when a pivot is not positive or pivot_ratio() < 1e-14.
  explicit SparseCholesky(const SymmetricMatrix &, const std::vector<int> &group = {});
  ~SparseCholesky();
  SparseCholesky(SparseCholesky &&) noexcept;

  /// Solutions of n_columns right-hand sides stored one after the other.
  std::vector<double> solve(const std::vector<double> &right_hand_sides, int n_columns) const;

  double entries() const;      ///< stored numbers of the factor
  double pivot_ratio() const;  ///< smallest over largest pivot of the scaled matrix

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace felloe::detail
