// SPDX-License-Identifier: GPL-3.0-or-later
// Scaled Jacobians at corners, volume and Jacobians at Gauss points.
#include <algorithm>
#include <cmath>
#include <limits>

#include "mesher/mesh_quality.h"

namespace felloe {
namespace {

/// Quadratic Lagrange polynomials on [0, 1] with nodes 0, 1/2, 1, and their derivatives.
struct Shape {
  double value[3], slope[3];
  explicit Shape(double x)
      : value{(1 - x) * (1 - 2 * x), 4 * x * (1 - x), x * (2 * x - 1)},
        slope{4 * x - 3, 4 - 8 * x, 4 * x - 1} {}
};

using Nodes27 = std::array<Vec3, 27>;

double determinant(const Vec3 &a, const Vec3 &b, const Vec3 &c) { return dot(a, cross(b, c)); }

/// Determinant of the quadratic map at unit coordinates.
double jacobian(const Nodes27 &x, const Shape &a, const Shape &b, const Shape &c) {
  Vec3 d[3] = {};
  for (int k = 0; k < 3; ++k)
    for (int j = 0; j < 3; ++j)
      for (int i = 0; i < 3; ++i) {
        const Vec3 &p = x[i + 3 * j + 9 * k];
        const double w[3] = {a.slope[i] * b.value[j] * c.value[k],
                             a.value[i] * b.slope[j] * c.value[k],
                             a.value[i] * b.value[j] * c.slope[k]};
        for (int e = 0; e < 3; ++e)
          for (int m = 0; m < 3; ++m) d[e][m] += w[e] * p[m];
      }
  return determinant(d[0], d[1], d[2]);
}

/// Smallest over the 8 corners of the determinant of the three unit edge vectors.
double scaled_jacobian(const Nodes27 &x) {
  const int stride[3] = {2, 6, 18};
  double least = std::numeric_limits<double>::max();
  for (int corner = 0; corner < 8; ++corner) {
    int at = 0;
    for (int d = 0; d < 3; ++d)
      if (corner >> d & 1) at += stride[d];
    Vec3 e[3];
    double lengths = 1;
    for (int d = 0; d < 3; ++d) {
      const bool high = corner >> d & 1;
      const Vec3 &other = x[high ? at - stride[d] : at + stride[d]];
      e[d] = high ? subtract(x[at], other) : subtract(other, x[at]);
      lengths *= norm(e[d]);
    }
    least = std::min(least, lengths > 0 ? determinant(e[0], e[1], e[2]) / lengths : -1.0);
  }
  return least;
}

Vec3 interpolated(const Nodes27 &x, const Vec3 &unit) {
  const Shape a(unit[0]), b(unit[1]), c(unit[2]);
  Vec3 p{};
  for (int k = 0; k < 3; ++k)
    for (int j = 0; j < 3; ++j)
      for (int i = 0; i < 3; ++i)
        p = add(p, scale(a.value[i] * b.value[j] * c.value[k], x[i + 3 * j + 9 * k]));
  return p;
}

void take(MeshQuality &q, const Nodes27 &x, int cell) {
  static const double g = std::sqrt(0.15);
  static const Shape points[3] = {Shape(0.5 - g), Shape(0.5), Shape(0.5 + g)};
  static const double weight[3] = {5.0 / 18, 8.0 / 18, 5.0 / 18};
  const double sj = scaled_jacobian(x);
  if (sj < q.min_scaled_jacobian) {
    q.min_scaled_jacobian = sj;
    q.worst_cell = cell;
  }
  for (int k = 0; k < 3; ++k)
    for (int j = 0; j < 3; ++j)
      for (int i = 0; i < 3; ++i) {
        const double det = jacobian(x, points[i], points[j], points[k]);
        q.min_jacobian_at_gauss_points = std::min(q.min_jacobian_at_gauss_points, det);
        q.volume += weight[i] * weight[j] * weight[k] * det;
      }
}

template <class Wanted>
MeshQuality quality_of(const Mesh &mesh, int refinements, Wanted wanted) {
  MeshQuality q;
  q.min_scaled_jacobian = q.min_jacobian_at_gauss_points = std::numeric_limits<double>::max();
  const int n = 1 << refinements, side = 2 * n + 1;  // children and lattice points along an edge
  std::vector<Vec3> lattice(static_cast<std::size_t>(side) * side * side);
  for (int cell = 0; cell < static_cast<int>(mesh.cells.size()); ++cell) {
    if (!wanted(cell)) continue;
    Nodes27 own;
    for (int k = 0; k < 27; ++k) own[k] = mesh.nodes[mesh.cells[cell][k]];
    if (refinements == 0) {
      take(q, own, cell);
      continue;
    }
    for (int k = 0, at = 0; k < side; ++k)
      for (int j = 0; j < side; ++j)
        for (int i = 0; i < side; ++i, ++at) {
          const Vec3 unit = {0.5 * i / n, 0.5 * j / n, 0.5 * k / n};
          lattice[at] = mesh.position ? mesh.position(cell, unit) : interpolated(own, unit);
        }
    for (int k = 0; k < n; ++k)
      for (int j = 0; j < n; ++j)
        for (int i = 0; i < n; ++i) {
          Nodes27 child;
          for (int m = 0; m < 27; ++m)
            child[m] =
                lattice[(2 * i + m % 3) + side * ((2 * j + m / 3 % 3) + side * (2 * k + m / 9))];
          take(q, child, cell);
        }
  }
  return q;
}

}  // namespace

MeshQuality mesh_quality(const Mesh &mesh, int refinements) {
  return quality_of(mesh, refinements, [](int) { return true; });
}

MeshQuality part_quality(const Mesh &mesh, Part part, int refinements) {
  return quality_of(mesh, refinements, [&](int cell) { return mesh.parts[cell] == part; });
}

}  // namespace felloe
