// SPDX-License-Identifier: GPL-3.0-or-later
// Consistent nodal forces of tractions and body forces on quadratic cells.
#include "solver/load_case.h"

#include <array>
#include <cmath>

namespace felloe {
namespace {

/// A Gauss point of the unit interval with the three quadratic shape functions 2 (x - 1/2)(x - 1),
/// 4 x (1 - x), 2 x (x - 1/2) and their derivatives.
struct LinePoint {
  double weight;
  std::array<double, 3> shape, slope;
};

LinePoint line_point(double on_minus_one_to_one, double weight) {
  const double x = 0.5 * (1 + on_minus_one_to_one);
  return {0.5 * weight,
          {2 * (x - 0.5) * (x - 1), 4 * x * (1 - x), 2 * x * (x - 0.5)},
          {4 * x - 3, 4 - 8 * x, 4 * x - 1}};
}

// Points and weights: Abramowitz and Stegun, Handbook of Mathematical Functions, table 25.4.
std::array<LinePoint, 3> three_points() {
  const double x = std::sqrt(0.6);
  return {line_point(-x, 5.0 / 9), line_point(0, 8.0 / 9), line_point(x, 5.0 / 9)};
}

std::array<LinePoint, 4> four_points() {
  const double root = 2.0 / 7 * std::sqrt(1.2);
  const double near = std::sqrt(3.0 / 7 - root), far = std::sqrt(3.0 / 7 + root);
  const double heavy = (18 + std::sqrt(30)) / 36, light = (18 - std::sqrt(30)) / 36;
  return {line_point(-far, light), line_point(-near, heavy), line_point(near, heavy),
          line_point(far, light)};
}

void add_scaled(Vec3 &to, double factor, const Vec3 &v) {
  for (int i = 0; i < 3; ++i) to[i] += factor * v[i];
}

void add_face(const Mesh &mesh, const CellFace &face, const Traction &traction,
              std::vector<Vec3> &forces) {
  static const auto points = four_points();
  const std::array<int, 9> nodes = face_nodes(mesh, face);
  for (const LinePoint &v : points)
    for (const LinePoint &u : points) {
      Vec3 x{}, du{}, dv{};
      std::array<double, 9> shape;
      for (int k = 0; k < 9; ++k) {
        shape[k] = u.shape[k % 3] * v.shape[k / 3];
        add_scaled(x, shape[k], mesh.nodes[nodes[k]]);
        add_scaled(du, u.slope[k % 3] * v.shape[k / 3], mesh.nodes[nodes[k]]);
        add_scaled(dv, u.shape[k % 3] * v.slope[k / 3], mesh.nodes[nodes[k]]);
      }
      const Vec3 area = cross(du, dv);
      const double size = norm(area);
      const Vec3 t = traction(x, scale(1 / size, area));
      for (int k = 0; k < 9; ++k)
        add_scaled(forces[nodes[k]], shape[k] * size * u.weight * v.weight, t);
    }
}

void add_cell(const Mesh &mesh, const std::array<int, 27> &nodes, const BodyForce &body_force,
              std::vector<Vec3> &forces) {
  static const auto points = three_points();
  for (const LinePoint &c : points)
    for (const LinePoint &b : points)
      for (const LinePoint &a : points) {
        Vec3 x{}, da{}, db{}, dc{};
        std::array<double, 27> shape;
        for (int k = 0; k < 27; ++k) {
          const int i = k % 3, j = k / 3 % 3, l = k / 9;
          const Vec3 &node = mesh.nodes[nodes[k]];
          shape[k] = a.shape[i] * b.shape[j] * c.shape[l];
          add_scaled(x, shape[k], node);
          add_scaled(da, a.slope[i] * b.shape[j] * c.shape[l], node);
          add_scaled(db, a.shape[i] * b.slope[j] * c.shape[l], node);
          add_scaled(dc, a.shape[i] * b.shape[j] * c.slope[l], node);
        }
        const double volume = dot(da, cross(db, dc)) * a.weight * b.weight * c.weight;
        const Vec3 f = body_force(x);
        for (int k = 0; k < 27; ++k) add_scaled(forces[nodes[k]], shape[k] * volume, f);
      }
}

}  // namespace

std::vector<Vec3> nodal_forces(const Mesh &mesh, const LoadCase &load) {
  std::vector<Vec3> forces;
  nodal_forces(mesh, load, forces);
  return forces;
}

void nodal_forces(const Mesh &mesh, const LoadCase &load, std::vector<Vec3> &forces) {
  forces.assign(mesh.nodes.size(), Vec3{});
  for (const auto &[name, traction] : load.tractions)
    for (const CellFace &face : surface(mesh, name)) add_face(mesh, face, traction, forces);
  if (load.body_force)
    for (const auto &nodes : mesh.cells) add_cell(mesh, nodes, load.body_force, forces);
  for (const auto &[node, force] : load.point_forces) forces[node] = add(forces[node], force);
}

Resultant resultant(const Mesh &mesh, const std::vector<Vec3> &nodal_forces) {
  Resultant sum;
  for (std::size_t n = 0; n < nodal_forces.size(); ++n) {
    sum.force = add(sum.force, nodal_forces[n]);
    sum.moment = add(sum.moment, cross(mesh.nodes[n], nodal_forces[n]));
  }
  return sum;
}

}  // namespace felloe
