// SPDX-License-Identifier: GPL-3.0-or-later
// Measures the solver without a matrix: product, iterations, memory, threads. Prints what it runs
// to stderr and a table, or with --json one object, to stdout. --small: a tenth of the size.
#include <petscmat.h>
#include <sys/resource.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstring>
#include <string>
#include <vector>

#include "solver/matrix_free_model.h"
#include "solver/operator_speed.h"
#include "tests/support/block_mesh.h"
#include "tests/support/steel.h"

namespace felloe {
namespace {

double peak_bytes() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return usage.ru_maxrss * 1024.0;
}

/// A flat disc, radius 30 ... 180 mm.
Mesh disc(double thickness, std::array<int, 3> n) {
  return test::block_mesh(test::ring(30, 180, 0, thickness, n));
}

/// Held outside, tilted by the rigid hub: one load, to 1e-8.
MatrixFreeFigures tilted(const Mesh &mesh, int n_threads) {
  MatrixFreeSettings settings;
  settings.n_threads = n_threads;
  Supports supports;
  supports.held = {{"outside"}};
  supports.adapter_surface = "inside";
  LoadCase load;
  load.name = "moment on the hub";
  load.adapter.moment = {1e5, 0, 0};
  const MatrixFreeModel model(mesh, {{Part::disc, test::steel()}}, NodalFrame::cartesian, settings);
  model.solve(supports, {load});
  const MatrixFreeFigures f = model.figures();
  std::fprintf(stderr,
               "%ld DoF, %d threads: %d iterations, set-up %.2f s, coarse factor (%ld unknowns, "
               "%.1f M entries) and columns %.2f s, solve %.2f s\n",
               f.dofs, n_threads, f.iterations[0], f.setup_seconds, f.coarse_unknowns,
               1e-6 * f.coarse_entries, f.factor_seconds, f.solve_seconds);
  return f;
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

void run(bool json, bool small) {
  const double at_start = peak_bytes();
  const std::array<int, 3> solved =
      small ? std::array<int, 3>{20, 90, 2} : std::array<int, 3>{60, 280, 2};
  const std::array<int, 3> one_layer =
      small ? std::array<int, 3>{25, 110, 1} : std::array<int, 3>{75, 375, 1};
  const std::array<int, 3> multiplied =
      small ? std::array<int, 3>{50, 200, 1} : std::array<int, 3>{150, 600, 1};
  const Mesh thin = disc(2, solved);
  const MatrixFreeFigures two = tilted(thin, 2);
  const double bytes = (peak_bytes() - at_start) / two.dofs,
               with_libraries = peak_bytes() / two.dofs;
  const MatrixFreeFigures one = tilted(thin, 1);
  const MatrixFreeFigures thick = tilted(disc(8, solved), 2);
  const MatrixFreeFigures layer_2 = tilted(disc(2, one_layer), 2);
  const double layer_bytes = (peak_bytes() - at_start) / layer_2.dofs;
  const MatrixFreeFigures layer_8 = tilted(disc(8, one_layer), 2);

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

  const std::vector<std::pair<std::string, double>> figures{
      {"operator_vs_assembled", aij / product[0][0]},
      {"operator_vs_assembled_blocks", baij / product[0][0]},
      {"float_operator_vs_assembled", aij / product[1][0]},
      {"operator_dofs", dofs},
      {"solve_dofs", double(two.dofs)},
      {"solve_iterations", double(std::max(two.iterations[0], thick.iterations[0]))},
      {"thin_iteration_growth", double(two.iterations[0]) / thick.iterations[0]},
      {"one_layer_iterations", double(layer_2.iterations[0])},
      {"one_layer_thin_growth", double(layer_2.iterations[0]) / layer_8.iterations[0]},
      {"bytes_per_dof", bytes},
      {"bytes_per_dof_with_libraries", with_libraries},
      {"one_layer_bytes_per_dof", layer_bytes},
      {"two_thread_speedup",
       (one.factor_seconds + one.solve_seconds) / (two.factor_seconds + two.solve_seconds)},
      {"two_thread_operator_speedup", product[0][0] / product[0][1]},
  };
  std::string separator = json ? "{" : "";
  for (const auto &[key, value] : figures) {
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
  PetscInitialize(nullptr, nullptr, nullptr, nullptr);
  felloe::run(json, small);
  PetscFinalize();
}
