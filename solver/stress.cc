// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/stress.h"

#include <algorithm>
#include <cmath>

namespace felloe {
namespace {

using Matrix = std::array<std::array<double, 3>, 3>;

Matrix matrix(const Stress &s) {
  return {{{s[0], s[3], s[5]}, {s[3], s[1], s[4]}, {s[5], s[4], s[2]}}};
}

}  // namespace

Stress operator+(const Stress &a, const Stress &b) {
  Stress c;
  for (int i = 0; i < 6; ++i) c[i] = a[i] + b[i];
  return c;
}

Stress operator-(const Stress &a, const Stress &b) {
  Stress c;
  for (int i = 0; i < 6; ++i) c[i] = a[i] - b[i];
  return c;
}

Stress operator*(double f, const Stress &a) {
  Stress c;
  for (int i = 0; i < 6; ++i) c[i] = f * a[i];
  return c;
}

double von_mises(const Stress &s) {
  const double a = s[0] - s[1], b = s[1] - s[2], c = s[2] - s[0];
  return std::sqrt(0.5 * (a * a + b * b + c * c) + 3 * (s[3] * s[3] + s[4] * s[4] + s[5] * s[5]));
}

double hydrostatic(const Stress &s) { return (s[0] + s[1] + s[2]) / 3; }

// Closed form by the Lode angle of the deviator.
std::array<double, 3> principal_stresses(const Stress &s) {
  const double p = hydrostatic(s), q = von_mises(s);
  if (q <= 1e-14 * (std::abs(p) + 1e-300)) return {p, p, p};
  const double x = s[0] - p, y = s[1] - p, z = s[2] - p;
  const double j3 =
      x * (y * z - s[4] * s[4]) - s[3] * (s[3] * z - s[4] * s[5]) + s[5] * (s[3] * s[4] - y * s[5]);
  const double cosine = std::clamp(13.5 * j3 / (q * q * q), -1.0, 1.0);
  const double lode = std::acos(cosine) / 3, radius = 2 * q / 3;
  return {p + radius * std::cos(lode), p + radius * std::cos(lode - 2 * pi / 3),
          p + radius * std::cos(lode + 2 * pi / 3)};
}

Vec3 traction(const Stress &s, const Vec3 &n) {
  return {s[0] * n[0] + s[3] * n[1] + s[5] * n[2], s[3] * n[0] + s[1] * n[1] + s[4] * n[2],
          s[5] * n[0] + s[4] * n[1] + s[2] * n[2]};
}

double normal_stress(const Stress &s, const Vec3 &n) { return dot(n, traction(s, n)); }

Stress in_frame(const Stress &s, const std::array<Vec3, 3> &axes) {
  const Matrix m = matrix(s);
  const auto component = [&](int i, int j) {
    double sum = 0;
    for (int a = 0; a < 3; ++a)
      for (int b = 0; b < 3; ++b) sum += axes[i][a] * m[a][b] * axes[j][b];
    return sum;
  };
  return {{component(0, 0), component(1, 1), component(2, 2), component(0, 1), component(1, 2),
           component(2, 0)}};
}

Stress turned_about_axis(const Stress &s, double angle) {
  const double c = std::cos(angle), sn = std::sin(angle);
  return in_frame(s, {{{c, -sn, 0}, {sn, c, 0}, {0, 0, 1}}});
}

}  // namespace felloe
