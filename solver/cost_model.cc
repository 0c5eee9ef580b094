// SPDX-License-Identifier: GPL-3.0-or-later
// Costs of the two shipped wheels, 0.2 to 2.2 million unknowns, on a virtual machine with two cores
// (AVX-512, OpenBLAS). Bytes were measured in November 2026 by tests/bench/cost_bench and by
// `measured_bytes` of runs, within 15 %. Seconds of half sectors are from runs of the demo wheel
// with little beside them (three sets of supports, 24 loads: 0.3 million unknowns 2 s, 0.7 million
// 5 to 6.5 s; how they grow from processor time beside other work), within a factor of 1.4; those
// of sectors, of the whole and without a matrix are older and were only found to keep their ratio
// to one another, within a factor of 1.5. On another machine all solvers are faster or slower
// together: the choice carries over better than the seconds.
#include "solver/cost_model.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <vector>

#include "solver/detail/cell_columns.h"
#include "solver/detail/sector_mesh.h"
#include "solver/detail/wedge_mesh.h"
#include "solver/parallel.h"

namespace felloe {
namespace {

constexpr double bytes_of_result = 24;  ///< displacement and stress [bytes per unknown and load]
/// Work is done by this power of the number of threads faster.
constexpr double parallel_exponent = 0.85;
/// Of the free memory: the prediction is not better than that.
constexpr double usable_share = 0.8;

std::string gigabytes(double bytes) {
  char text[32];
  std::snprintf(text, sizeof text, "%.3g GB", 1e-9 * bytes);
  return text;
}

/// Length along the sheet over thickness: that of one cell in a hundred is larger. The lengths are
/// those between the middles of opposite faces.
double slenderness(const Mesh &mesh, const detail::CellColumns &columns) {
  std::vector<double> all;
  for (std::size_t c = 0; c < mesh.cells.size(); ++c) {
    if (columns.loose[c]) continue;
    const auto &places = columns.places[c];
    const auto length = [&](int from, int to) {
      return norm(
          subtract(mesh.nodes[columns.node[places[to]]], mesh.nodes[columns.node[places[from]]]));
    };
    all.push_back(std::max(length(12, 14), length(10, 16)) / length(4, 22));
  }
  if (all.empty()) return 1;
  std::sort(all.begin(), all.end());
  return all[all.size() * 99 / 100];
}

}  // namespace

SolveTask solve_task(const Mesh &mesh) {
  SolveTask task;
  task.dofs = 3 * static_cast<long>(mesh.nodes.size());
  if (const auto wedge = detail::wedge_mesh(mesh)) {
    task.sectors = wedge->n_sectors();
    task.mirrored = true;
    task.cut_dofs = 3 * static_cast<long>(wedge->cut.size());
  } else if (const auto sector = detail::sector_mesh(mesh)) {
    task.sectors = static_cast<int>(sector->whole.size());
    task.cut_dofs = 3 * static_cast<long>(sector->left.size());
  }
  const detail::CellColumns columns = detail::cell_columns(mesh);
  task.nodes_in_column = static_cast<double>(columns.n_places()) / columns.n_columns();
  task.slenderness = slenderness(mesh, columns);
  task.n_threads = n_threads();
  return task;
}

SolveCost direct_cost(const SolveTask &t) {
  const double n = static_cast<double>(t.dofs), m = static_cast<double>(t.cut_dofs);
  const int n_parts = t.mirrored ? 2 : 1;  // even and odd one
  const double piece = n / (t.sectors * n_parts);
  SolveCost cost;
  double entries = 0, elimination = 0, matrices = 0, assembly = 2.4e-6 * n;
  if (t.mirrored) {
    entries = 104 * std::pow(piece, 1.2);
    // a set whose loads are symmetric leaves the odd part out
    elimination = 3.9e-8 * (2 * t.n_supports - t.n_symmetric) * std::pow(piece, 1.5);
    matrices = 500 * n;
    assembly = 2e-6 * n;
  } else if (t.sectors > 1) {
    entries = 42.2 * std::pow(piece, 1.2) + 9.3 * m * m;
    elimination = t.n_supports * (1.2e-7 * std::pow(piece, 1.5) + 4e-11 * m * m * m);
    matrices = 400 * n + 15 * m * m;
  } else {
    entries = 42.2 * std::pow(piece, 1.2);
    elimination = 1e-7 * t.n_supports * std::pow(piece, 1.5);
    matrices = 5400 * n;
  }
  cost.processor_seconds = t.n_supports * assembly + elimination + 1.4e-7 * n * t.n_loads;
  cost.seconds = cost.processor_seconds / std::pow(t.n_threads, parallel_exponent);
  cost.bytes = 8 * entries + matrices + (bytes_of_result + 12) * n * t.n_loads;
  return cost;
}

int expected_iterations(const SolveTask &t) {
  return static_cast<int>(50 + 0.19 * std::pow(t.slenderness, 2.5));
}

SolveCost matrix_free_cost(const SolveTask &t) {
  const double n = static_cast<double>(t.dofs);
  const int n_workers = t.n_processes > 1 ? t.n_processes : t.n_threads;
  SolveCost cost;
  cost.processor_seconds =
      3e-6 * n * t.n_supports + 2.6e-7 * n * expected_iterations(t) * t.n_loads;
  cost.seconds = cost.processor_seconds / std::pow(n_workers, parallel_exponent);
  cost.bytes = 570 * n + bytes_of_result * n * t.n_loads * t.n_processes;
  return cost;
}

ChosenSolver choose_solver(const SolveTask &task, SolverChoice wanted, double free_bytes) {
  ChosenSolver c{false, direct_cost(task), matrix_free_cost(task), {}};
  if (wanted != SolverChoice::automatic) {
    c.matrix_free = wanted == SolverChoice::matrix_free;
    c.reason = "asked for";
    return c;
  }
  const double usable = usable_share * free_bytes;
  const bool direct_fits = c.direct.bytes <= usable, other_fits = c.iterated.bytes <= usable;
  if (direct_fits && other_fits) {
    c.matrix_free = c.iterated.seconds < c.direct.seconds;
    c.reason = "expected to be faster";
  } else if (direct_fits != other_fits) {
    c.matrix_free = other_fits;
    c.reason = "the other one does not fit into " + gigabytes(free_bytes) + " of free memory";
  } else {
    c.matrix_free = c.iterated.bytes < c.direct.bytes;
    c.reason = "needs less memory; neither fits into the free " + gigabytes(free_bytes);
  }
  return c;
}

}  // namespace felloe
