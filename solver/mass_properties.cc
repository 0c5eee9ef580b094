// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/mass_properties.h"

#include <cmath>

#include "mesher/error.h"
#include "solver/load_case.h"

namespace felloe {
namespace {

/// The cells of one part, with the nodes of the whole mesh.
Mesh cells_of(const Mesh &mesh, Part part) {
  Mesh only;
  only.nodes = mesh.nodes;
  for (std::size_t c = 0; c < mesh.cells.size(); ++c)
    if (mesh.parts[c] == part) only.cells.push_back(mesh.cells[c]);
  return only;
}

/// Integral of a vector field over all cells: the sum of its consistent nodal forces.
Vec3 integral(const Mesh &mesh, const BodyForce &field) {
  LoadCase load;
  load.body_force = field;
  return resultant(mesh, nodal_forces(mesh, load)).force;
}

}  // namespace

MassProperties mass_properties(const Mesh &mesh, const std::map<Part, Material> &materials) {
  for (const Part part : mesh.parts)
    if (!materials.count(part)) throw Error("mass: a part of the mesh has no material; give one");
  MassProperties m;
  Vec3 first{}, product{};  // integrals of (1, x, y) and (xz, yz)
  for (const auto &[part, material] : materials) {
    const Mesh only = cells_of(mesh, part);
    if (only.cells.empty()) continue;
    const double density = material.density;
    const Vec3 a = integral(only, [&](const Vec3 &x) {
      return scale(density, Vec3{1, x[0], x[1]});
    });
    const Vec3 b = integral(only, [&](const Vec3 &x) {
      return scale(density * x[2], Vec3{0, x[0], x[1]});
    });
    m.parts[part] = a[0];
    first = add(first, a);
    product = add(product, b);
  }
  m.total = first[0];
  m.static_unbalance = std::hypot(first[1], first[2]);
  m.couple_unbalance = std::hypot(product[1], product[2]);
  return m;
}

}  // namespace felloe
