// SPDX-License-Identifier: GPL-3.0-or-later
// What every solution must pass before it leaves the solver.
#pragma once
#include <array>
#include <vector>

#include "solver/detail/constraint_map.h"
#include "solver/detail/sparse_vector.h"
#include "solver/elastic_model.h"

namespace felloe::detail {

/// A solution before its stresses, in nodal frames.
struct SolvedLoad {
  std::vector<double> displacement;  ///< u
  std::vector<double> load;          ///< f, nodal forces of tractions and body forces
  std::vector<double> internal;      ///< K u
  std::array<double, 6> motion{};    ///< of the adapter
  double residual = 0;               ///< in relation to the load
};

/// Fills applied, reaction, balance_error and strain_energy of the solution.
/// @param node_stiffness  largest diagonal entry of each node [N/mm]; only sets the scale of
/// rounding
void fill_balance(const Mesh &, const std::vector<Axes> &, const ConstraintMap &,
                  const std::vector<double> &node_stiffness, const LoadCase &, const SolvedLoad &,
                  Solution &);

/// Fills the forces of the press fit, see Solution.
void fill_press_fit(const Mesh &, const ConstraintMap &, const SolvedLoad &, Solution &);

/// Throws Error naming the load, the figure and its limit when the residual or the balance of
/// forces and moments exceeds 1e-6, when the strain energy is negative, or when it differs from
/// half the work of the loads although nothing is displaced or pressed in by force.
/// @param node_stiffness  see fill_balance()
void check(const ConstraintMap &, const std::vector<double> &node_stiffness, const LoadCase &,
           const SolvedLoad &, const Solution &);

/// |C^T (f - K u) + adapter load|, f - K u given as two vectors or as a whole; moments over the
/// body's size [mm] so that they weigh like forces.
double reduced_residual(const ConstraintMap &, const std::vector<double> &f,
                        const std::vector<double> &ku, const LoadCase &, double size);
double reduced_residual(const ConstraintMap &, const SparseVector &rest, const LoadCase &,
                        double size);

}  // namespace felloe::detail
