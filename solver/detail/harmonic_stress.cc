// SPDX-License-Identifier: GPL-3.0-or-later
// Stress amplitudes at the section nodes.
#include "solver/detail/harmonic_stress.h"

#include <algorithm>
#include <cmath>

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

HarmonicStresses::HarmonicStresses(const SectionMesh &mesh,
                                   const std::map<Part, Material> &materials)
    : cells_(mesh.cells.size()), share_(mesh.nodes.size(), 0.) {
  const std::vector<Part> part = stress_part(mesh);
  for (std::size_t c = 0; c < cells_.size(); ++c) {
    Cell &cell = cells_[c];
    const Material &material = materials.at(mesh.parts[c]);
    cell.nodes = mesh.cells[c];
    cell.mu = material.youngs_modulus / (2 * (1 + material.poissons_ratio));
    cell.lambda = 2 * cell.mu * material.poissons_ratio / (1 - 2 * material.poissons_ratio);
    double smallest = 1e300, largest = 0;
    for (const int node : cell.nodes) {
      smallest = std::min(smallest, mesh.nodes[node][0]);
      largest = std::max(largest, mesh.nodes[node][0]);
    }
    cell.points = section_points(mesh, static_cast<int>(c), smallest > 1e-6 * largest ? 0 : 2);
    for (int i = 0; i < 9; ++i) {
      cell.counts[i] = part[cell.nodes[i]] == mesh.parts[c];
      share_[cell.nodes[i]] += cell.counts[i];
    }
  }
  for (double &s : share_) s = s > 0 ? 1 / s : 0;
}

std::vector<HarmonicStress> HarmonicStresses::at_nodes(
    int n, const std::vector<HarmonicVector> &displacement) const {
  static const std::array<std::array<double, 4>, 9> weight = [] {
    std::array<std::array<double, 4>, 9> w;
    for (int i = 0; i < 9; ++i)
      for (int q = 0; q < 4; ++q) w[i][q] = extrapolation(i, q);
    return w;
  }();
  std::vector<HarmonicStress> stress(share_.size());
  for (const Cell &cell : cells_) {
    HarmonicStress at_point[9];
    const int n_points = static_cast<int>(cell.points.size());
    for (int q = 0; q < n_points; ++q) {
      const SectionPoint &p = cell.points[q];
      double u = 0, v = 0, w = 0, ur = 0, uz = 0, vr = 0, vz = 0, wr = 0, wz = 0;
      for (int i = 0; i < 9; ++i) {
        const HarmonicVector &d = displacement[cell.nodes[i]];
        u += p.value[i] * d[0], ur += p.dr[i] * d[0], uz += p.dz[i] * d[0];
        v += p.value[i] * d[1], vr += p.dr[i] * d[1], vz += p.dz[i] * d[1];
        w += p.value[i] * d[2], wr += p.dr[i] * d[2], wz += p.dz[i] * d[2];
      }
      const double r = p.rz[0], around = (u + n * v) / r, mu = cell.mu;
      const double volumetric = cell.lambda * (ur + around + wz);
      at_point[q] = {volumetric + 2 * mu * ur, volumetric + 2 * mu * around,
                     volumetric + 2 * mu * wz, mu * (vr - (v + n * u) / r),
                     mu * (vz - n * w / r),    mu * (uz + wr)};
    }
    for (int i = 0; i < 9; ++i) {
      if (!cell.counts[i]) continue;
      const double share = share_[cell.nodes[i]];
      HarmonicStress &s = stress[cell.nodes[i]];
      for (int q = n_points == 9 ? i : 0; q < (n_points == 9 ? i + 1 : 4); ++q) {
        const double k = n_points == 9 ? share : share * weight[i][q];
        const HarmonicStress &t = at_point[q];
        s.rr += k * t.rr, s.tt += k * t.tt, s.zz += k * t.zz;
        s.rt += k * t.rt, s.tz += k * t.tz, s.zr += k * t.zr;
      }
    }
  }
  return stress;
}

}  // namespace felloe::detail
