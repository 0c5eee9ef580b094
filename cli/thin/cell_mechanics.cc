// SPDX-License-Identifier: GPL-3.0-or-later
// The same element as the solver's (quadratic, isoparametric), cell by cell.
#include "cli/thin/cell_mechanics.h"

#include <cmath>

namespace felloe {
namespace {

/// Derivatives of the 27 shape functions in unit coordinates.
using Slopes = std::array<Vec3, 27>;

Slopes slopes_at(const Vec3 &p) {
  std::array<std::array<double, 3>, 3> value, slope;  // [direction][node]
  for (int d = 0; d < 3; ++d) {
    const double u = p[d];
    value[d] = {(1 - 2 * u) * (1 - u), 4 * u * (1 - u), u * (2 * u - 1)};
    slope[d] = {4 * u - 3, 4 - 8 * u, 4 * u - 1};
  }
  Slopes s;
  for (int a = 0; a < 27; ++a) {
    const int i = a % 3, j = a / 3 % 3, k = a / 9;
    s[a] = {slope[0][i] * value[1][j] * value[2][k], value[0][i] * slope[1][j] * value[2][k],
            value[0][i] * value[1][j] * slope[2][k]};
  }
  return s;
}

/// Gradients in space; returns the Jacobian determinant.
double gradients(const CellNodes &x, const Slopes &slopes, CellNodes &g) {
  double j[3][3] = {};  // dx_i / du_k
  for (int a = 0; a < 27; ++a)
    for (int i = 0; i < 3; ++i)
      for (int k = 0; k < 3; ++k) j[i][k] += x[a][i] * slopes[a][k];
  double c[3][3];  // cofactors: the inverse is their transpose over the determinant
  for (int i = 0; i < 3; ++i)
    for (int k = 0; k < 3; ++k) {
      const int i1 = (i + 1) % 3, i2 = (i + 2) % 3, k1 = (k + 1) % 3, k2 = (k + 2) % 3;
      c[i][k] = j[i1][k1] * j[i2][k2] - j[i1][k2] * j[i2][k1];
    }
  const double det = j[0][0] * c[0][0] + j[0][1] * c[0][1] + j[0][2] * c[0][2];
  for (int a = 0; a < 27; ++a)
    for (int i = 0; i < 3; ++i)
      g[a][i] = (c[i][0] * slopes[a][0] + c[i][1] * slopes[a][1] + c[i][2] * slopes[a][2]) / det;
  return det;
}

struct GaussPoint {
  Slopes slopes;
  double weight;
};

const std::vector<GaussPoint> &gauss_points() {
  static const std::vector<GaussPoint> all = [] {
    const double x = 0.5 * std::sqrt(0.6);
    const double at[3] = {0.5 - x, 0.5, 0.5 + x}, w[3] = {5. / 18, 8. / 18, 5. / 18};
    std::vector<GaussPoint> points;
    for (int q = 0; q < 27; ++q)
      points.push_back(
          {slopes_at({at[q % 3], at[q / 3 % 3], at[q / 9]}), w[q % 3] * w[q / 3 % 3] * w[q / 9]});
    return points;
  }();
  return all;
}

/// f += w sigma(u) g of one point and one load.
__attribute__((target_clones("arch=x86-64-v3", "default"))) void add_point(
    const CellNodes &g, double w, double lambda, double mu, const CellNodes &u, CellNodes &f) {
  double d[9] = {};  // du_i / dx_j
  for (int a = 0; a < 27; ++a)
    for (int i = 0; i < 3; ++i)
      for (int j = 0; j < 3; ++j) d[3 * i + j] += u[a][i] * g[a][j];
  const double volumetric = lambda * (d[0] + d[4] + d[8]);
  double s[9];
  for (int i = 0; i < 3; ++i)
    for (int j = 0; j < 3; ++j)
      s[3 * i + j] = w * ((i == j ? volumetric : 0.0) + mu * (d[3 * i + j] + d[3 * j + i]));
  for (int a = 0; a < 27; ++a)
    for (int i = 0; i < 3; ++i)
      f[a][i] += s[3 * i] * g[a][0] + s[3 * i + 1] * g[a][1] + s[3 * i + 2] * g[a][2];
}

double lambda_of(const Material &m) {
  const double nu = m.poissons_ratio;
  return m.youngs_modulus * nu / ((1 + nu) * (1 - 2 * nu));
}
double mu_of(const Material &m) { return m.youngs_modulus / (2 * (1 + m.poissons_ratio)); }

}  // namespace

void add_cell_forces(const CellNodes &x, const Material &material,
                     const std::vector<CellNodes> &displacements, std::vector<CellNodes> &forces) {
  const double lambda = lambda_of(material), mu = mu_of(material);
  CellNodes g;
  for (const GaussPoint &point : gauss_points()) {
    const double w = point.weight * gradients(x, point.slopes, g);
    for (std::size_t l = 0; l < displacements.size(); ++l)
      add_point(g, w, lambda, mu, displacements[l], forces[l]);
  }
}

CellNodes gradients_at_node(const CellNodes &x, int node) {
  CellNodes g;
  gradients(x, slopes_at({0.5 * (node % 3), 0.5 * (node / 3 % 3), 0.5 * (node / 9)}), g);
  return g;
}

Stress cell_stress(const CellNodes &g, const CellNodes &u, const Material &material) {
  double d[3][3] = {};
  for (int a = 0; a < 27; ++a)
    for (int i = 0; i < 3; ++i)
      for (int j = 0; j < 3; ++j) d[i][j] += u[a][i] * g[a][j];
  const double mu = mu_of(material),
               volumetric = lambda_of(material) * (d[0][0] + d[1][1] + d[2][2]);
  return {{volumetric + 2 * mu * d[0][0], volumetric + 2 * mu * d[1][1],
           volumetric + 2 * mu * d[2][2], mu * (d[0][1] + d[1][0]), mu * (d[1][2] + d[2][1]),
           mu * (d[2][0] + d[0][2])}};
}

}  // namespace felloe
