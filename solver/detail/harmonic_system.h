// SPDX-License-Identifier: GPL-3.0-or-later
// The assembled equations of one harmonic with their factor, and the checks of every solution.
#pragma once
#include <map>
#include <memory>
#include <vector>

#include "solver/detail/harmonic_constraints.h"
#include "solver/detail/harmonic_element.h"
#include "solver/detail/sparse_cholesky.h"

namespace felloe::detail {

/// Stiffness of all cells of one harmonic.
std::vector<CellMatrix> cell_matrices(const SectionMesh &, const std::map<Part, Material> &, int n);

/// K u of the whole section, without constraints.
std::vector<double> multiply(const SectionMesh &, const std::vector<CellMatrix> &,
                             const std::vector<double> &u);

class HarmonicSystem {
 public:
  /// Assembles and factors T^T K T. Throws Error when a rigid motion is left free.
  HarmonicSystem(const SectionMesh &, const std::map<Part, Material> &, const HarmonicSupports &,
                 int n, bool torsion);
  /// Displacement, adapter motion, residual, balance, energy; no stress. Throws Error when a check
  /// fails.
  HarmonicSolution solve(const HarmonicLoad &, const std::vector<double> &forces) const;

 private:
  SymmetricMatrix assembled() const;
  std::vector<int> groups() const;
  void check_balance(HarmonicSolution &, const HarmonicLoad &, const std::vector<double> &forces,
                     const std::vector<double> &internal) const;

  const SectionMesh &mesh_;
  int n_;
  HarmonicConstraints constraints_;
  std::vector<CellMatrix> cells_;
  std::unique_ptr<SparseCholesky> factor_;
};

}  // namespace felloe::detail
