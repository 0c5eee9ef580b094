// SPDX-License-Identifier: GPL-3.0-or-later
// What the direct and the matrix-free solver will need, and which of them to take.
#pragma once
#include <string>

#include "mesher/mesh.h"

namespace felloe {

/// How loads are solved.
enum class SolverChoice { automatic, direct, matrix_free };

/// What the cost depends on.
struct SolveTask {
  long dofs = 0;
  int sectors = 1;             ///< equal ones that one factor stands for
  bool mirrored = false;       ///< half a sector stands for both halves
  long cut_dofs = 0;           ///< unknowns on a cut between sectors
  double nodes_in_column = 3;  ///< through the thickness, mean
  double slenderness = 1;  ///< of the cells: length along the sheet over thickness, 99 % are below
  int n_supports = 1;      ///< sets of supports: each has a factor of its own
  int n_symmetric = 0;  ///< of those, with loads that are their own mirror images, as a press fit
  int n_loads = 1;      ///< of all sets
  int n_threads = 1;    ///< of this process
  int n_processes = 1;  ///< that share a matrix-free solve
};

/// The task of a mesh: sizes, sectors and shape of the cells. Supports and loads are one each.
SolveTask solve_task(const Mesh &);

struct SolveCost {
  double seconds = 0;
  double bytes = 0;              ///< of all processes together, on top of mesh and results
  double processor_seconds = 0;  ///< of all threads: other work on the machine spoils it less
};

SolveCost direct_cost(const SolveTask &);
/// Of the slowest load to AnyModel::tolerance: cells that are long over the thickness need more.
int expected_iterations(const SolveTask &);
SolveCost matrix_free_cost(const SolveTask &);

struct ChosenSolver {
  bool matrix_free = false;
  SolveCost direct, iterated;  ///< predicted
  std::string reason;
  const SolveCost &cost() const { return matrix_free ? iterated : direct; }
};

/// The faster one of those that fit into the free memory; when none does, the smaller one.
/// @param wanted  other than automatic: that one, whatever it costs
ChosenSolver choose_solver(const SolveTask &, SolverChoice wanted, double free_bytes);

}  // namespace felloe
