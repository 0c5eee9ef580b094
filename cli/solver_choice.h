// SPDX-License-Identifier: GPL-3.0-or-later
// Which solver a run takes, said before and measured after.
#pragma once
#include "cli/analysis.h"
#include "solver/any_model.h"
#include "solver/cost_model.h"
#include "solver/peak_memory.h"

namespace felloe {

/// What is solved on one mesh; see SolveTask.
struct SolveCounts {
  int supports = 1, symmetric = 0;
  int loads = 1;  ///< of all sets
};

/// Chooses for the mesh and what is solved on it, says so, and puts the prediction into the
/// results. The same on all processes of a run.
/// @param direct_only  what the matrix-free solver can't do though the case wants it; empty:
/// nothing Throws Error when the case asks for the matrix-free solver nevertheless.
ChosenSolver chosen_solver(Analysis &, const Case &, const SolveCounts &,
                           const std::string &direct_only, Progress &);

/// Whether this process solves: all do without a matrix, the first one alone directly.
bool solves_here(const ChosenSolver &);

/// Seconds and bytes from its construction on.
class SolveMeasurement {
 public:
  SolveMeasurement(Progress &progress) : progress_(progress), start_(progress.total_seconds()) {}
  /// Into the results, with the path that the model took, and into the time that is left.
  void report(Analysis &, const std::string &path) const;

 private:
  Progress &progress_;
  double start_;
  PeakMemory memory_;
};

}  // namespace felloe
