// SPDX-License-Identifier: GPL-3.0-or-later
// The coarse grid of planes and frames in them.
#include "post/plane_search.h"

namespace felloe {
namespace {

// Spiral of equal areas over the half sphere (golden angle), and the planes at 0 and 45 degrees to
// the axes, where textbook histories have their maxima.
std::vector<Vec3> half_sphere() {
  constexpr int n_spiral = 400;
  const double golden_angle = pi * (3 - std::sqrt(5.0)), h = std::sqrt(0.5);
  std::vector<Vec3> normals = {{1, 0, 0}, {0, 1, 0},  {0, 0, 1}, {h, h, 0}, {h, -h, 0},
                               {0, h, h}, {0, h, -h}, {h, 0, h}, {-h, 0, h}};
  for (int i = 0; i < n_spiral; ++i) {
    const double z = (i + 0.5) / n_spiral, r = std::sqrt(1 - z * z), a = i * golden_angle;
    normals.push_back({r * std::cos(a), r * std::sin(a), z});
  }
  return normals;
}

}  // namespace

const std::vector<Vec3> &coarse_planes() {
  static const std::vector<Vec3> planes = half_sphere();
  return planes;
}

void tangents(const Vec3 &n, Vec3 &u, Vec3 &v) {
  const Vec3 other = std::abs(n[2]) < 0.7 ? Vec3{0, 0, 1} : Vec3{1, 0, 0};
  u = cross(other, n);
  u = scale(1 / norm(u), u);
  v = cross(n, u);
}

}  // namespace felloe
