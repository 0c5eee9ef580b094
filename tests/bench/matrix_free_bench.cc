// SPDX-License-Identifier: GPL-3.0-or-later
// Measures the solver without a matrix: product, iterations, memory, threads, processes. Prints
// what it runs to stderr and a table, or with --json one object, to stdout. --small: a tenth of the
// size. Every solve runs in a process of its own, so that peaks of memory do not mix.
#include <petscmat.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <fstream>
#include <string>
#include <vector>

#include "solver/matrix_free_model.h"
#include "solver/operator_speed.h"
#include "solver/processes.h"
#include "tests/support/block_mesh.h"
#include "tests/support/steel.h"

namespace felloe {
namespace {

/// A line of /proc/self/status [bytes]. The peak that getrusage() tells is no use here: it starts
/// with what the program that called this one had.
double memory(const std::string &wanted) {
  std::ifstream file("/proc/self/status");
  double value = 0;
  for (std::string key, rest; file >> key && std::getline(file, rest);)
    if (key == wanted) value = 1024 * std::stod(rest);
  return value;
}

/// A flat disc, radius 30 ... 180 mm.
Mesh disc(double thickness, std::array<int, 3> n) {
  return test::block_mesh(test::ring(30, 180, 0, thickness, n));
}

/// What a solve tells the process that started it.
struct Run {
  double dofs = 0, iterations = 0, setup = 0, factor = 0, solve = 0;
  double bytes = 0, with_libraries = 0;  ///< peak of the process: growth since its start, and whole
  double seconds() const { return setup + factor + solve; }
};

/// Held outside, tilted by the rigid hub: one load, to 1e-8.
void solve_here(const Processes &processes, double thickness, std::array<int, 3> n, int n_threads) {
  const double at_start = memory("VmRSS:");
  const Mesh mesh = disc(thickness, n);
  MatrixFreeSettings settings;
  settings.n_threads = n_threads;
  Supports supports;
  supports.held = {{"outside"}};
  supports.adapter_surface = "inside";
  LoadCase load;
  load.name = "moment on the hub";
  load.adapter.moment = {1e5, 0, 0};
  const MatrixFreeModel model(mesh, {{Part::disc, test::steel()}}, NodalFrame::cartesian, settings);
  processes.wait();
  model.solve(supports, {load});
  const MatrixFreeFigures f = model.figures();
  const double peak = memory("VmHWM:");
  if (processes.number() > 0) return;
  std::fprintf(
      stderr,
      "%ld DoF, %d processes, %d threads: %d iterations, set-up %.2f s, coarse factor (%ld "
      "unknowns, %.1f M entries) and columns %.2f s, solve %.2f s, %.0f MB\n",
      f.dofs, f.processes, f.threads, f.iterations[0], f.setup_seconds, f.coarse_unknowns,
      1e-6 * f.coarse_entries, f.factor_seconds, f.solve_seconds, 1e-6 * (peak - at_start));
  std::printf("solved %ld %d %g %g %g %g %g\n", f.dofs, f.iterations[0], f.setup_seconds,
              f.factor_seconds, f.solve_seconds, peak - at_start, peak);
}

/// The same by this program, started again; by mpirun, one thread each, when n_processes > 0.
Run solved(const std::string &program, double thickness, std::array<int, 3> n, int n_processes,
           int n_threads = 1) {
  std::string command;
  if (n_processes > 0)
    command =
        "OMPI_ALLOW_RUN_AS_ROOT=1 OMPI_ALLOW_RUN_AS_ROOT_CONFIRM=1 mpirun --bind-to core -n " +
        std::to_string(n_processes) + " ";
  command += "'" + program + "' --solve " + std::to_string(thickness);
  for (const int i : n) command += " " + std::to_string(i);
  command += " " + std::to_string(n_threads);
  Run run;
  run.dofs = run.iterations = run.solve = run.bytes = run.with_libraries = NAN;
  std::FILE *pipe = popen(command.c_str(), "r");
  if (!pipe) return run;
  char line[300];
  while (std::fgets(line, sizeof line, pipe))
    std::sscanf(line, "solved %lf %lf %lf %lf %lf %lf %lf", &run.dofs, &run.iterations, &run.setup,
                &run.factor, &run.solve, &run.bytes, &run.with_libraries);
  pclose(pipe);
  return run;
}

/// The fastest of three runs; one core each.
Run fastest(const std::string &program, std::array<int, 3> n, int n_processes) {
  Run best = solved(program, 2, n, n_processes);
  for (int again = 0; again < 2; ++again) {
    const Run run = solved(program, 2, n, n_processes);
    if (run.seconds() < best.seconds()) best = run;
  }
  return best;
}

/// One row for each component; all three rows of a node have the same columns.
struct Pattern {
  std::vector<PetscInt> start{0}, column;
};

Pattern pattern(const Mesh &mesh, int block) {
  std::vector<std::vector<int>> cells_at(mesh.nodes.size());
  for (std::size_t c = 0; c < mesh.cells.size(); ++c)
    for (const int n : mesh.cells[c]) cells_at[n].push_back(static_cast<int>(c));
  const auto neighbours = [&](std::size_t n, std::vector<int> &near) {
    near.clear();
    for (const int c : cells_at[n])
      near.insert(near.end(), mesh.cells[c].begin(), mesh.cells[c].end());
    std::sort(near.begin(), near.end());
    near.erase(std::unique(near.begin(), near.end()), near.end());
  };
  std::vector<int> near;
  std::size_t n_entries = 0;
  for (std::size_t n = 0; n < mesh.nodes.size(); ++n) {
    neighbours(n, near);
    n_entries += near.size() * block * block;
  }
  Pattern p;
  p.column.reserve(n_entries);
  for (std::size_t n = 0; n < mesh.nodes.size(); ++n) {
    neighbours(n, near);
    for (int i = 0; i < block; ++i) {
      for (const int other : near)
        for (int j = 0; j < block; ++j) p.column.push_back(block * other + j);
      p.start.push_back(static_cast<PetscInt>(p.column.size()));
    }
  }
  return p;
}

/// PETSc's product with a matrix of the mesh's pattern; the numbers in it do not matter.
double assembled_seconds(const Mesh &mesh, bool blocks) {
  Pattern p = pattern(mesh, blocks ? 1 : 3);
  const PetscInt n = static_cast<PetscInt>(3 * mesh.nodes.size());
  std::vector<PetscScalar> value(blocks ? 9 * 1000 : p.column.size(), 1e-3);
  Mat a;
  if (blocks) {
    std::vector<PetscInt> n_in_row;
    for (PetscInt r = 0; r < n / 3; ++r) n_in_row.push_back(p.start[r + 1] - p.start[r]);
    MatCreateSeqBAIJ(PETSC_COMM_SELF, 3, n, n, 0, n_in_row.data(), &a);
    for (PetscInt r = 0; r < n / 3; ++r)
      MatSetValuesBlocked(a, 1, &r, n_in_row[r], p.column.data() + p.start[r], value.data(),
                          INSERT_VALUES);
    MatAssemblyBegin(a, MAT_FINAL_ASSEMBLY);
    MatAssemblyEnd(a, MAT_FINAL_ASSEMBLY);
  } else {
    MatCreateSeqAIJWithArrays(PETSC_COMM_SELF, n, n, p.start.data(), p.column.data(), value.data(),
                              &a);
  }
  Vec x, y;
  MatCreateVecs(a, &x, &y);
  VecSet(x, 1);
  double best = 1e30;
  for (int r = 0; r < 5; ++r) {
    const auto start = std::chrono::steady_clock::now();
    MatMult(a, x, y);
    const std::chrono::duration<double> time = std::chrono::steady_clock::now() - start;
    best = std::min(best, time.count());
  }
  VecDestroy(&x);
  VecDestroy(&y);
  MatDestroy(&a);
  return best;
}

void run(const std::string &program, bool json, bool small) {
  const std::array<int, 3> two_layers =
      small ? std::array<int, 3>{20, 90, 2} : std::array<int, 3>{60, 280, 2};
  const std::array<int, 3> one_layer =
      small ? std::array<int, 3>{25, 110, 1} : std::array<int, 3>{75, 375, 1};
  const std::array<int, 3> multiplied =
      small ? std::array<int, 3>{50, 200, 1} : std::array<int, 3>{150, 600, 1};
  const Run one_process = fastest(program, two_layers, 1);
  const Run two_processes = fastest(program, two_layers, 2);
  const Run one = solved(program, 2, two_layers, 0, 1), two = solved(program, 2, two_layers, 0, 2);
  const Run thick = solved(program, 8, two_layers, 0, 2);
  const Run layer_2 = solved(program, 2, one_layer, 0, 2);
  const Run layer_8 = solved(program, 8, one_layer, 0, 2);

  PetscInitialize(nullptr, nullptr, nullptr, nullptr);
  const Mesh large = disc(2, multiplied);
  const double dofs = 3.0 * large.nodes.size();
  double product[2][2];
  for (const int precision : {0, 1})
    for (const int n_threads : {1, 2}) {
      double &t = product[precision][n_threads - 1];
      t = operator_seconds(large, test::steel(),
                           precision ? Precision::single_precision : Precision::double_precision,
                           n_threads, 10);
      std::fprintf(stderr, "product, %.0f DoF, %s, %d threads: %.1f MDoF/s\n", dofs,
                   precision ? "float" : "double", n_threads, 1e-6 * dofs / t);
    }
  const double baij = assembled_seconds(large, true), aij = assembled_seconds(large, false);
  std::fprintf(stderr, "assembled product of PETSc: AIJ %.1f, BAIJ %.1f MDoF/s\n",
               1e-6 * dofs / aij, 1e-6 * dofs / baij);

  PetscFinalize();

  const std::vector<std::pair<std::string, double>> figures{
      {"operator_vs_assembled", aij / product[0][0]},
      {"operator_vs_assembled_blocks", baij / product[0][0]},
      {"float_operator_vs_assembled", aij / product[1][0]},
      {"operator_dofs", dofs},
      {"solve_dofs", two.dofs},
      {"solve_iterations", std::max(two.iterations, thick.iterations)},
      {"thin_iteration_growth", two.iterations / thick.iterations},
      {"one_layer_iterations", layer_2.iterations},
      {"one_layer_thin_growth", layer_2.iterations / layer_8.iterations},
      {"bytes_per_dof", std::max(one.bytes, two.bytes) / two.dofs},
      {"bytes_per_dof_with_libraries", std::max(one.with_libraries, two.with_libraries) / two.dofs},
      {"one_layer_bytes_per_dof", layer_2.bytes / layer_2.dofs},
      // set-up, preconditioner and iteration; stresses are not divided and not counted
      {"two_process_speedup", one_process.seconds() / two_processes.seconds()},
      {"two_process_iteration_speedup", one_process.solve / two_processes.solve},
      {"two_process_seconds", two_processes.seconds()},
      {"two_thread_speedup", one.seconds() / two.seconds()},
      {"two_thread_operator_speedup", product[0][0] / product[0][1]},
  };
  std::string separator = json ? "{" : "";
  for (const auto &[key, value] : figures) {
    if (!std::isfinite(value)) continue;
    std::printf(json ? "%s\"%s\": %.6g" : "%s%s  %.4g\n", separator.c_str(), key.c_str(), value);
    if (json) separator = ", ";
  }
  if (json) std::printf("}\n");
}

}  // namespace
}  // namespace felloe

int main(int argc, char **argv) {
  bool json = false, small = false;
  for (int i = 1; i < argc; ++i) {
    json |= !std::strcmp(argv[i], "--json");
    small |= !std::strcmp(argv[i], "--small");
  }
  const std::vector<std::string> arguments(argv, argv + argc);
  if (argc == 7 && arguments[1] == "--solve") {
    const felloe::Processes processes(argc, argv);
    const auto number = [&](int i) { return std::stoi(arguments[i]); };
    felloe::solve_here(processes, std::stod(arguments[2]), {number(3), number(4), number(5)},
                       number(6));
    return 0;
  }
  felloe::run(arguments[0], json, small);
}
