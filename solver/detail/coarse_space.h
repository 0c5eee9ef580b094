// SPDX-License-Identifier: GPL-3.0-or-later
// The coarse problem of the matrix-free solver: a plate or shell on rigid columns, solved directly.
#pragma once
#include <array>
#include <memory>
#include <vector>

#include "solver/detail/admissible.h"
#include "solver/detail/cell_operator.h"
#include "solver/detail/coarse_columns.h"
#include "solver/detail/sparse_cholesky.h"

namespace felloe::detail {

/// Rigid columns do not change their thickness; with the plane-stress modulus in place of lambda
/// the sheet is as stiff as one that does.
class CoarseSpace {
 public:
  CoarseSpace(const Mesh &, const CellColumns &, const CellOperator<double> &,
              const std::vector<Lame> &of_cells, const Admissible &);

  /// e = P A^-1 P^T r, before the projection onto what supports allow.
  void correct(const float *r, float *e) const;

  int n_unknowns() const { return n_unknowns_; }
  double entries() const { return factor_->entries(); }

 private:
  /// What a carrying column's six motions about its centre follow: an entity's unknowns.
  struct Follower {
    int entity = -1;                               ///< -1: held
    std::array<std::array<double, 6>, 6> basis{};  ///< [motion][unknown of the entity]
  };
  struct Entity {
    int first = 0, n = 0;  ///< unknowns
  };
  using Motion = std::array<double, 6>;

  void number(const CellColumns &, const Admissible &);
  void make_pattern(const CellColumns &, const Admissible &);
  std::vector<int> carriers_of(const std::array<int, 27> &places) const;
  void add_cells(const CellColumns &, const CellOperator<double> &, const std::vector<Lame> &,
                 const Admissible &);
  void add_ties(const std::vector<Lame> &of_cells, const Admissible &);
  void add(int row_column, int column_column, const std::array<Motion, 6> &block);

  CoarseColumns coarse_;
  std::vector<Follower> follower_;
  std::vector<Entity> entity_;
  std::vector<std::vector<int>> below_;  ///< of each entity: coupled ones with numbers >= its own
  int n_unknowns_ = 0;
  std::vector<std::array<long, 2>> shares_;  ///< places first ... last - 1 of each share
  SymmetricMatrix matrix_;
  std::unique_ptr<SparseCholesky> factor_;
};

}  // namespace felloe::detail
