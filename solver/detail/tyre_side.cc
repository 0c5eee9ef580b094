// SPDX-License-Identifier: GPL-3.0-or-later
// The stretch of the rim between the beads, found by the names of faces; for 3D and section meshes.
#include "solver/detail/tyre_side.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>

#include "mesher/error.h"

namespace felloe::detail {
namespace {

Vec2 meridian(const Vec3 &x) { return {std::hypot(x[0], x[1]), x[2]}; }
Vec2 meridian(const Vec2 &rz) { return rz; }

std::vector<int> nodes_of(const Mesh &mesh, const std::string &name) {
  return surface_nodes(mesh, name);
}
std::vector<int> nodes_of(const SectionMesh &mesh, const std::string &name) {
  return edge_node_set(mesh, name);
}

template <class AnyMesh>
AxialSpan span(const AnyMesh &mesh) {
  AxialSpan s{std::numeric_limits<double>::max(), std::numeric_limits<double>::lowest()};
  for (const char *name : {"bead seat outboard", "bead seat inboard"})
    for (const int node : nodes_of(mesh, name)) {
      s.low = std::min(s.low, meridian(mesh.nodes[node])[1]);
      s.high = std::max(s.high, meridian(mesh.nodes[node])[1]);
    }
  return s;
}

template <class AnyMesh>
double load_radius(const AnyMesh &mesh) {
  double sum = 0;
  for (const char *name : {"flange outboard", "flange inboard"}) {
    double largest = 0;
    for (const int node : nodes_of(mesh, name))
      largest = std::max(largest, meridian(mesh.nodes[node])[0]);
    sum += largest;
  }
  return sum / 2;
}

}  // namespace

std::vector<std::string> tyre_side_names(const NamedFaces &faces) {
  std::vector<std::string> names;
  std::set<std::pair<int, int>> covered;
  for (const char *name : {"rim tyre side", "well", "bead seat outboard", "bead seat inboard"}) {
    const auto found = faces.find(name);
    if (found == faces.end()) continue;
    std::size_t n_known = 0;
    for (const CellFace &f : found->second) n_known += covered.count({f.cell, f.face});
    if (n_known == found->second.size()) continue;
    if (n_known > 0)
      throw Error("inflation: surface '" + std::string(name) +
                  "' overlaps the tyre side in part: name its faces either all or none");
    for (const CellFace &f : found->second) covered.insert({f.cell, f.face});
    names.push_back(name);
  }
  return names;
}

AxialSpan span_between_beads(const Mesh &mesh) { return span(mesh); }
AxialSpan span_between_beads(const SectionMesh &mesh) { return span(mesh); }
double flange_load_radius(const Mesh &mesh) { return load_radius(mesh); }
double flange_load_radius(const SectionMesh &mesh) { return load_radius(mesh); }

double bead_push(double pressure, double tyre_outer_radius, double flange_radius) {
  if (!(tyre_outer_radius > flange_radius))
    throw Error("inflation: tyre outer radius " + std::to_string(tyre_outer_radius) +
                " mm: not larger than the rim flange radius " + std::to_string(flange_radius) +
                " mm; give the tyre's outer radius, or 0 for no push on the flanges");
  return pi * (tyre_outer_radius * tyre_outer_radius - flange_radius * flange_radius) * pressure /
         2;
}

}  // namespace felloe::detail
