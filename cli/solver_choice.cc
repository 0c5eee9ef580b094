// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/solver_choice.h"

#include <cstdio>

#include "mesher/error.h"
#include "solver/memory.h"
#include "solver/processes.h"

namespace felloe {
namespace {

std::string figures(const SolveCost &cost) {
  char text[64];
  std::snprintf(text, sizeof text, "%.3g s, %.3g GB", cost.seconds, 1e-9 * cost.bytes);
  return text;
}

}  // namespace

ChosenSolver chosen_solver(Analysis &a, const Case &c, const SolveCounts &counts,
                           const std::string &direct_only, Progress &progress) {
  SolverChoice wanted = c.mesh.solver;
  if (!direct_only.empty()) {
    if (wanted == SolverChoice::matrix_free)
      throw Error("[mesh] solver = \"matrix free\": " + direct_only +
                  " needs the direct solver; write solver = \"automatic\" or leave it out");
    wanted = SolverChoice::direct;
  }
  SolveTask task = solve_task(a.mesh);
  task.n_supports = counts.supports;
  task.n_symmetric = counts.symmetric;
  task.n_loads = counts.loads;
  task.n_processes = Processes::count();
  ChosenSolver chosen = choose_solver(task, wanted, free_memory());
  if (!direct_only.empty()) chosen.reason = direct_only;
  // Free memory differs from process to process.
  chosen.matrix_free = Processes::of_first(chosen.matrix_free ? 1.0 : 0.0) > 0;
  SolverFigures &s = a.results.solver;
  s.path = chosen.matrix_free ? "matrix free" : "direct";
  s.reason = chosen.reason;
  s.processes = chosen.matrix_free ? task.n_processes : 1;
  s.predicted_seconds = chosen.cost().seconds;
  s.predicted_bytes = chosen.cost().bytes;
  std::string alone;
  if (!chosen.matrix_free && task.n_processes > 1)
    alone = " by the first process, " + std::to_string(task.n_processes - 1) + " wait";
  progress.note("solver: " + s.path + alone + " (" + chosen.reason + "); expected: direct " +
                figures(chosen.direct) + ", matrix free " + figures(chosen.iterated));
  progress.outlook.predict(task, chosen.matrix_free);
  // neither the states of a contact nor natural frequencies are in the cost model
  const bool known = !c.hub.contact && c.modes.count == 0;
  progress.expect(known ? progress.outlook.seconds_before_solves() : 0);
  return chosen;
}

bool solves_here(const ChosenSolver &chosen) { return chosen.matrix_free || Processes::first(); }

void SolveMeasurement::report(Analysis &a, const std::string &path) const {
  SolverFigures &s = a.results.solver;
  s.path = path;
  s.measured_seconds = progress_.total_seconds() - start_;
  s.measured_bytes = memory_.growth();
  Outlook &o = progress_.outlook;
  if (o.solves > 0) o.pace = s.measured_seconds / o.solves;
  progress_.expect(o.seconds_after_solves());
}

}  // namespace felloe
