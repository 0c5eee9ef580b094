// SPDX-License-Identifier: GPL-3.0-or-later
// Stress at every rated place of a wheel, and how it changes with a few numbers of its shape.
#pragma once
#include <functional>
#include <memory>
#include <vector>

#include "cli/thin/place_stress.h"
#include "mesher/chart_mesh.h"

namespace felloe {

/// A wheel from design variables.
using WheelOf = std::function<Wheel(const std::vector<double> &)>;

/// Solves designs on one mesh whose nodes follow the shape, hub bonded.
///
/// Gradients are semi-analytic and need no further factor. With u = C q + g the displacements under
/// supports and ties, the derivative q' of the unknowns follows from
///
///   C^T K C q' = d/dp [ C^T (f - K u(q fixed)) ]
///
/// whose right-hand side is a central difference of forces on two moved meshes, cell by cell, and
/// only cells that change their shape count. Stresses are then rated on both moved meshes with
/// displacements u +- h u'. Exact up to h^2.
class ThinModel {
 public:
  /// The mesh is made for x0. Case: everything but the wheel.
  ThinModel(const Case &, const MeshSize &, WheelOf, const std::vector<double> &x0);
  ~ThinModel();

  /// Places of the design x. The latest design is kept: gradients after it cost no new factor.
  /// `step`: of each variable, relative to its value, for the differences.
  const std::vector<PlaceStress> &at(const std::vector<double> &x, bool gradients,
                                     double step = 2.5e-4);

  /// Places below this share of their limit get no gradient; 0.5 unless set.
  void gradients_from(double share);

  int n_solved() const;  ///< designs that were solved
  long dofs() const;

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

/// Rolling-load positions a turn at which designs are compared; the verification takes the case's.
constexpr int thin_rolling_positions = 30;

}  // namespace felloe
