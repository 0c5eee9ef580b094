// SPDX-License-Identifier: GPL-3.0-or-later
// The coarse problem of the matrix-free solver: a plate or shell on rigid columns, solved directly.
#pragma once
#include <vector>

#include "solver/detail/coarse_part.h"

namespace felloe::detail {

/// Rigid columns do not change their thickness; with the plane-stress modulus in place of lambda
/// the sheet is as stiff as one that does.
///
/// Every share of the work factors its own inside. The unknowns between shares are few where the
/// shares are slices of a sheet; their dense matrix is factored by every process.
class CoarseSpace {
 public:
  /// `whole` and `everywhere` are of the whole mesh, `own` of this process, whose first share that
  /// is. All processes together. Throws NotPositiveDefinite on all of them.
  CoarseSpace(const Mesh &, const CellColumns &whole, const CellColumns &own, int first_share,
              const CellOperator<double> &, const std::vector<Lame> &of_cells,
              const Admissible &everywhere);

  /// e = P A^-1 P^T r, before the projection onto what supports allow. All processes together; the
  /// ghosts of r are filled.
  void correct(float *r, float *e);

  int n_unknowns() const { return n_unknowns_; }
  double entries() const { return entries_; }  ///< stored numbers of all processes

 private:
  void factor_border(std::vector<double> matrix);
  void solve_border(std::vector<double> &x) const;

  NodeExchange exchange_;
  std::vector<CoarsePart> parts_;
  int n_unknowns_ = 0, n_border_ = 0;
  long n_vector_ = 0;  ///< owned components and ghosts
  double entries_ = 0;
  std::vector<double> border_factor_, border_scaling_;
};

}  // namespace felloe::detail
