// SPDX-License-Identifier: GPL-3.0-or-later
// Meshes of revolution for tests that need a wheel-like body but no mesher.
#pragma once
#include <algorithm>
#include <cmath>
#include <functional>
#include <vector>

#include "mesher/mesh.h"

namespace felloe::test {

/// Adds the body that the patch (a, b) -> (r, z), 0 <= a, b <= 1, sweeps in one turn; nodes are
/// shared within the body. (a, b, theta) must be right-handed: a along r and b along -z, or a
/// along z and b along r.
inline void add_revolved(Mesh &mesh, Part part, int n_a, int n_b, int n_theta,
                         const std::function<Vec2(double, double)> &patch) {
  const int rows_a = 2 * n_a + 1, rows_b = 2 * n_b + 1, rows_theta = 2 * n_theta;
  const int first = static_cast<int>(mesh.nodes.size());
  for (int k = 0; k < rows_theta; ++k)
    for (int j = 0; j < rows_b; ++j)
      for (int i = 0; i < rows_a; ++i)
        mesh.nodes.push_back(revolved(patch(double(i) / (rows_a - 1), double(j) / (rows_b - 1)),
                                      2 * pi * k / rows_theta));
  for (int k = 0; k < n_theta; ++k)
    for (int j = 0; j < n_b; ++j)
      for (int i = 0; i < n_a; ++i) {
        std::array<int, 27> cell;
        for (int m = 0; m < 27; ++m)
          cell[m] = first + 2 * i + m % 3 + rows_a * (2 * j + m / 3 % 3) +
                    rows_a * rows_b * ((2 * k + m / 9) % rows_theta);
        mesh.cells.push_back(cell);
        mesh.parts.push_back(part);
      }
}

/// A ring of rectangular section: r 40 ... 60, z 0 ... 5 mm.
inline Mesh ring(int n_theta = 12) {
  Mesh mesh;
  add_revolved(mesh, Part::disc, 2, 1, n_theta, [](double a, double b) {
    return Vec2{40 + 20 * a, 5 - 5 * b};
  });
  return mesh;
}

/// Height of the toy wheel's disc over its hub plane [mm].
inline double bowl(double r) {
  const double s = (r - 75) / 45;
  return 22 * std::exp(-s * s) + 4;
}

/// A bowl-shaped disc in a barrel with two flanges: the proportions of a 15-inch wheel, no holes.
inline Mesh toy_wheel() {
  Mesh mesh;
  add_revolved(mesh, Part::disc, 18, 1, 60, [](double a, double b) {
    const double r = 32 + 138 * a;
    return Vec2{r, bowl(r) + 2 - 4 * b};
  });
  add_revolved(mesh, Part::rim, 24, 1, 60, [](double a, double b) {
    const double z = -95 + 165 * a;
    const double from_end = std::min(a, 1 - a);
    const double flange = 26 * std::exp(-from_end * from_end * 260);
    const double well = -12 * std::exp(-(a - 0.62) * (a - 0.62) * 160);
    return Vec2{184 + flange + well + 3 * b, z};
  });
  return mesh;
}

/// A field with two peaks: at (r, theta) = (120, 0.6) and, weaker, (75, -1.9).
inline std::vector<double> two_peaks(const Mesh &mesh) {
  std::vector<double> values;
  for (const Vec3 &x : mesh.nodes) {
    const auto bump = [&](double r, double theta, double width) {
      const double dx = x[0] - r * std::cos(theta), dy = x[1] - r * std::sin(theta);
      return std::exp(-(dx * dx + dy * dy) / (width * width));
    };
    values.push_back(20 + 160 * bump(120, 0.6, 30) + 110 * bump(75, -1.9, 25));
  }
  return values;
}

}  // namespace felloe::test
