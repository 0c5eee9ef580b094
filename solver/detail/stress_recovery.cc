// SPDX-License-Identifier: GPL-3.0-or-later
// Gauss-point stresses, extrapolated and averaged.
#include "solver/detail/stress_recovery.h"

#include <array>
#include <cmath>

#include "solver/detail/parallel.h"

namespace felloe::detail {
namespace {

/// Weights [node][Gauss point] of the trilinear extrapolation.
std::array<std::array<double, 8>, 27> extrapolation() {
  const double low = 0.5 - 0.5 / std::sqrt(3.0), high = 0.5 + 0.5 / std::sqrt(3.0);
  const auto weight = [&](int third, int upper) {
    const double x = 0.5 * third;
    return upper ? (x - low) / (high - low) : (high - x) / (high - low);
  };
  std::array<std::array<double, 8>, 27> w;
  for (int n = 0; n < 27; ++n)
    for (int q = 0; q < 8; ++q)
      w[n][q] = weight(n % 3, q % 2) * weight(n / 3 % 3, q / 2 % 2) * weight(n / 9, q / 4);
  return w;
}

Stress stress_at(const std::array<Vec3, 27> &gradients, const std::array<Vec3, 27> &u,
                 const Lame &material) {
  std::array<Vec3, 3> d{};  // d[i][j] = du_i / dx_j
  for (int a = 0; a < 27; ++a)
    for (int i = 0; i < 3; ++i)
      for (int j = 0; j < 3; ++j) d[i][j] += u[a][i] * gradients[a][j];
  const double volumetric = material.lambda * (d[0][0] + d[1][1] + d[2][2]), mu = material.mu;
  return {{volumetric + 2 * mu * d[0][0], volumetric + 2 * mu * d[1][1],
           volumetric + 2 * mu * d[2][2], mu * (d[0][1] + d[1][0]), mu * (d[1][2] + d[2][1]),
           mu * (d[2][0] + d[0][2])}};
}

using CellStress = std::array<Stress, 27>;

CellStress cell_stress(const Mesh &mesh, int cell, const CellGradients &at, const Lame &material,
                       const std::vector<Vec3> &displacement) {
  static const auto weights = extrapolation();
  std::array<Vec3, 27> u;
  for (int a = 0; a < 27; ++a) u[a] = displacement[mesh.cells[cell][a]];
  std::array<Stress, 8> at_gauss;
  for (int q = 0; q < 8; ++q) at_gauss[q] = stress_at(at.gradients[q], u, material);
  CellStress at_nodes{};
  for (int a = 0; a < 27; ++a)
    for (int q = 0; q < 8; ++q)
      for (int i = 0; i < 6; ++i) at_nodes[a][i] += weights[a][q] * at_gauss[q][i];
  return at_nodes;
}

}  // namespace

std::vector<std::vector<Stress>> nodal_stresses(
    const Mesh &mesh, const HexGeometry &geometry, const std::vector<Lame> &of_cells,
    const std::vector<const std::vector<Vec3> *> &displacements) {
  const int n_loads = static_cast<int>(displacements.size());
  const auto counts = [&](int cell, int node) {
    return mesh.node_parts.empty() || mesh.node_parts[node] == mesh.parts[cell];
  };
  std::vector<int> n_cells_at(mesh.nodes.size(), 0);
  for (int c = 0; c < geometry.n_cells(); ++c)
    for (const int n : mesh.cells[c]) n_cells_at[n] += counts(c, n);

  std::vector<std::vector<Stress>> sums(n_loads, std::vector<Stress>(mesh.nodes.size()));
  constexpr int batch = 256;
  std::vector<CellStress> stresses(1L * batch * n_loads);
  for (int begin = 0; begin < geometry.n_cells(); begin += batch) {
    const int n = std::min(batch, geometry.n_cells() - begin);
    in_parallel([&](int t) {
      geometry.visit(begin + n * t / n_threads(), begin + n * (t + 1) / n_threads(), 2,
                     [&](int c, const CellGradients &at) {
                       for (int l = 0; l < n_loads; ++l)
                         stresses[1L * (c - begin) * n_loads + l] =
                             cell_stress(mesh, c, at, of_cells[c], *displacements[l]);
                     });
    });
    parallel_for(0, n_loads, [&](int l) {
      for (int c = begin; c < begin + n; ++c)
        for (int a = 0; a < 27; ++a) {
          const int node = mesh.cells[c][a];
          if (!counts(c, node)) continue;
          const Stress &s = stresses[1L * (c - begin) * n_loads + l][a];
          for (int i = 0; i < 6; ++i) sums[l][node][i] += s[i];
        }
    });
  }
  for (auto &field : sums)
    for (std::size_t n = 0; n < field.size(); ++n)
      if (n_cells_at[n] > 0) field[n] = (1.0 / n_cells_at[n]) * field[n];
  return sums;
}

}  // namespace felloe::detail
