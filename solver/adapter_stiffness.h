// SPDX-License-Identifier: GPL-3.0-or-later
// The 6 x 6 stiffness of a body at its rigid hub adapter.
#pragma once
#include <array>
#include <vector>

#include "solver/elastic_model.h"

namespace felloe {

/// Rows and columns: x, y, z, about x, about y, about z, at the origin of the wheel frame.
using Matrix6 = std::array<std::array<double, 6>, 6>;

/// Force and moment on the adapter by its motion: (F, M) = K (u, phi) with u [mm], phi [rad].
/// K is symmetric: [N/mm] for force by shift, [N] for force by turn and moment by shift, [N mm/rad]
/// for moment by turn.
struct AdapterStiffness {
  Matrix6 stiffness{};   ///< every other motion blocked
  Matrix6 compliance{};  ///< its inverse: motion under one force or moment alone

  // One load alone, every other motion free: how the wheel gives way on the vehicle.
  double tilt_Nm_per_deg() const;     ///< moment about x over the turn about x
  double torsion_Nm_per_deg() const;  ///< moment about z over the turn about z
  double axial_N_per_mm() const;      ///< force along z over the shift along z
  double radial_N_per_mm() const;     ///< force along x over the shift along x
};

/// Six loads on the adapter in the order of Matrix6: `force` [N] along x, y, z and `moment` [N mm]
/// about x, y, z.
std::vector<LoadCase> adapter_loads(double force, double moment);

/// From the adapter's motions under adapter_loads(force, moment), one solution a load in that
/// order. Forces and turns are compared after scaling the compliance to a unit diagonal.
/// Throws Error when it is not symmetric to 1e-8 (Maxwell and Betti) or not positive definite.
AdapterStiffness adapter_stiffness(const std::vector<std::array<double, 6>> &motions, double force,
                                   double moment);

/// Solves the six loads under the supports, which name a free adapter.
AdapterStiffness adapter_stiffness(const ElasticModel &, const Supports &);

}  // namespace felloe
