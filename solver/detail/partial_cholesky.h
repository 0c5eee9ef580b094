// SPDX-License-Identifier: GPL-3.0-or-later
// Elimination of the interior unknowns of a repeated piece: Schur complement on its border.
#pragma once
#include <memory>
#include <optional>
#include <vector>

#include "solver/detail/dense_triangle.h"
#include "solver/detail/sparse_cholesky.h"
#include "solver/detail/sparse_vector.h"

namespace felloe::detail {

/// Where a column goes: its multiples to one or two vectors, in place of what is there or added.
struct WantedColumn {
  double *first = nullptr, *second = nullptr;
  double first_weight = 1, second_weight = 0;
  bool add = false;
};

/// Cholesky factor of a piece's matrix with the border unknowns eliminated last.
///
/// K = [K_II K_IB; K_BI K_BB]; what stays on the border is the Schur complement
/// S = K_BB - K_BI K_II^-1 K_IB, singular when the piece can move freely.
class PartialCholesky {
 public:
  /// @param border  the unknowns that stay
  /// @param group   see SparseCholesky
  /// @param position  of each unknown in an elimination order that is known already (only that of
  ///                  interior unknowns counts); negative: absent, held at zero. Empty: nested
  ///                  dissection of all
  /// @param corner  where S goes, its lower triangle alone; without: into memory of its own, both
  ///                triangles
  /// Throws NotPositiveDefinite when an interior pivot is not positive.
  PartialCholesky(const SymmetricMatrix &, const std::vector<long> &border,
                  const std::vector<int> &group, const std::vector<long> &position = {},
                  const std::optional<DenseTriangle> &corner = {});
  ~PartialCholesky();

  long size() const;  ///< of the matrix, absent unknowns included
  long border_size() const;
  /// The border unknowns as given: the order that schur(), condense() and recover() use.
  const std::vector<long> &border() const;
  /// S, dense, column by column; null when it went elsewhere.
  const double *schur() const;
  double entries() const;  ///< stored numbers, those of its own S included
  /// Smallest over largest pivot of the interior, scaled to a unit diagonal.
  double pivot_ratio() const;

  /// Right-hand sides to the condensed ones on the border, K_BI K_II^-1 f_I taken off f_B:
  /// (border_size x columns). `eliminated` receives what recover() needs, for the same number of
  /// columns on the same number of processors.
  std::vector<double> condense(const std::vector<SparseVector> &right_hand_sides,
                               RawVector<double> &eliminated) const;
  /// All unknowns from those on the border (border_size x columns); 0 of absent ones.
  void recover(const std::vector<double> &border_values, RawVector<double> eliminated,
               const std::vector<WantedColumn> &) const;

  /// The same for columns that stand one after the other (n x n_columns).
  std::vector<double> condense(const std::vector<double> &right_hand_sides, int n_columns,
                               RawVector<double> &eliminated) const;
  std::vector<double> recover(const std::vector<double> &border_values, int n_columns,
                              RawVector<double> eliminated) const;

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace felloe::detail
