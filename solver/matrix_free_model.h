// SPDX-License-Identifier: GPL-3.0-or-later
// Linear elasticity in 3D without a matrix, for meshes whose factor does not fit into memory.
#pragma once
#include <map>
#include <memory>
#include <vector>

#include "solver/elastic_model.h"

namespace felloe {

struct MatrixFreeSettings {
  int n_threads = 0;        ///< of each process; 0: one for each processor, one under MPI
  double tolerance = 1e-8;  ///< relative residual at which the iteration ends
  int most_iterations = 1000;
  int smoother_degree = 5;     ///< Chebyshev steps before and after each coarse correction
  double smoother_range = 20;  ///< largest eigenvalue over the smallest that is smoothed
  bool all_processes = true;   ///< of an MPI run share the work; false: each by itself
};

struct MatrixFreeFigures {
  int processes = 1, threads = 1;  ///< threads of each process
  long dofs = 0, coarse_unknowns = 0;
  double coarse_entries = 0;  ///< stored numbers of the coarse factor
  double setup_seconds = 0;   ///< operators, made once
  double factor_seconds = 0;  ///< column blocks and coarse factor, for each set of supports
  double solve_seconds = 0;   ///< all loads
  double recovery_seconds = 0;
  std::vector<int> iterations;  ///< of each load of the latest solve
};

/// The discretisation of ElasticModel, solved by conjugate gradients to the tolerance: quadratic
/// hexahedra, the same supports, loads, checks and stresses. The preconditioner smooths on columns
/// of nodes through the thickness and solves a shell of rigid columns directly. Geometry is the
/// quadratic interpolation of the nodes.
///
/// In an MPI run (see Processes) every process makes the same calls with the same mesh and loads.
/// Cells, smoother, vectors and the inside of the coarse problem are divided; the mesh, the
/// supports and the results are on every process.
class MatrixFreeModel {
 public:
  /// Materials of every part that occurs in the mesh.
  MatrixFreeModel(const Mesh &, const std::map<Part, Material> &,
                  NodalFrame = NodalFrame::cartesian, const MatrixFreeSettings & = {});
  ~MatrixFreeModel();
  MatrixFreeModel(MatrixFreeModel &&) noexcept;
  MatrixFreeModel &operator=(MatrixFreeModel &&) noexcept;

  /// One load after the other. Every solution is checked as those of ElasticModel.
  /// Throws Error naming the load and the figure when a check fails, when the supports leave a
  /// rigid motion free, or when the iteration does not end; on all processes when on one.
  std::vector<Solution> solve(const Supports &, const std::vector<LoadCase> &) const;

  const MatrixFreeFigures &figures() const;  ///< of the construction and the latest solve

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace felloe
