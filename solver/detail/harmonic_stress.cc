// SPDX-License-Identifier: GPL-3.0-or-later
// Stress amplitudes at the section nodes.
#include "solver/detail/harmonic_stress.h"

#include <cmath>

#include "solver/detail/harmonic_element.h"

namespace felloe::detail {
namespace {

/// Weight of the 2 x 2 Gauss point (k, l) at the node (i, j) / 2: product of linear extrapolations.
double extrapolation(int node, int point) {
  const auto line = [](int i, int k) {
    const double sign = k == 0 ? -1 : 1;
    return 0.5 * (1 + sign * std::sqrt(3.) * (i - 1));
  };
  return line(node % 3, point % 2) * line(node / 3, point / 2);
}

/// The part whose cells give a node its stress: its owner, or the first part that touches it.
std::vector<Part> stress_part(const SectionMesh &mesh) {
  if (!mesh.node_parts.empty()) return mesh.node_parts;
  std::vector<Part> part(mesh.nodes.size(), Part::weld);
  for (std::size_t c = 0; c < mesh.cells.size(); ++c)
    for (const int node : mesh.cells[c]) part[node] = std::min(part[node], mesh.parts[c]);
  return part;
}

}  // namespace

std::vector<HarmonicStress> nodal_stress(const SectionMesh &mesh,
                                         const std::map<Part, Material> &materials, int n,
                                         const std::vector<HarmonicVector> &displacement) {
  const std::vector<Part> part = stress_part(mesh);
  std::vector<std::array<double, 6>> sum(mesh.nodes.size());
  std::vector<int> count(mesh.nodes.size(), 0);
  for (std::size_t c = 0; c < mesh.cells.size(); ++c) {
    const auto points = section_points(mesh, int(c), 2);
    std::array<std::array<double, 6>, 4> at_point;
    for (int q = 0; q < 4; ++q) {
      const StrainMatrix b = strain_matrix(points[q], n);
      std::array<double, 6> strain{};
      for (int k = 0; k < 6; ++k)
        for (int i = 0; i < n_local; ++i)
          strain[k] += b[k][i] * displacement[mesh.cells[c][i / 3]][i % 3];
      at_point[q] = stress_of(strain, materials.at(mesh.parts[c]));
    }
    for (int i = 0; i < 9; ++i) {
      const int node = mesh.cells[c][i];
      if (part[node] != mesh.parts[c]) continue;
      ++count[node];
      for (int q = 0; q < 4; ++q)
        for (int k = 0; k < 6; ++k) sum[node][k] += extrapolation(i, q) * at_point[q][k];
    }
  }
  std::vector<HarmonicStress> stress(mesh.nodes.size());
  for (std::size_t i = 0; i < stress.size(); ++i) {
    if (count[i] == 0) continue;
    for (double &s : sum[i]) s /= count[i];
    stress[i] = {sum[i][0], sum[i][1], sum[i][2], sum[i][3], sum[i][4], sum[i][5]};
  }
  return stress;
}

}  // namespace felloe::detail
