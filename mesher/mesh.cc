// SPDX-License-Identifier: GPL-3.0-or-later
// Named surfaces and lines of a mesh and their nodes.
#include "mesher/mesh.h"

#include <algorithm>

#include "mesher/error.h"

namespace felloe {
namespace {

template <class Map>
const typename Map::mapped_type &named(const Map &map, const std::string &kind,
                                       const std::string &name) {
  const auto found = map.find(name);
  if (found != map.end()) return found->second;
  std::string names;
  for (const auto &entry : map) names += (names.empty() ? "" : ", ") + entry.first;
  throw Error("mesh: no " + kind + " '" + name + "': the mesh has: " + names);
}

}  // namespace

const std::vector<CellFace> &surface(const Mesh &mesh, const std::string &name) {
  return named(mesh.surfaces, "surface", name);
}

const std::vector<int> &line(const Mesh &mesh, const std::string &name) {
  return named(mesh.lines, "line", name);
}

std::array<int, 9> face_nodes(const Mesh &mesh, const CellFace &f) {
  constexpr std::array<int, 3> stride{1, 3, 9};
  const int axis = f.face / 2;
  const bool upper = f.face % 2;
  int u = stride[(axis + 1) % 3], v = stride[(axis + 2) % 3];
  if (!upper) std::swap(u, v);
  std::array<int, 9> nodes;
  for (int k = 0; k < 9; ++k)
    nodes[k] = mesh.cells[f.cell][(upper ? 2 * stride[axis] : 0) + k % 3 * u + k / 3 * v];
  return nodes;
}

std::vector<int> surface_nodes(const Mesh &mesh, const std::string &name) {
  std::vector<int> nodes;
  for (const CellFace &f : surface(mesh, name))
    for (const int n : face_nodes(mesh, f)) nodes.push_back(n);
  std::sort(nodes.begin(), nodes.end());
  nodes.erase(std::unique(nodes.begin(), nodes.end()), nodes.end());
  return nodes;
}

}  // namespace felloe
