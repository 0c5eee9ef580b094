// SPDX-License-Identifier: GPL-3.0-or-later
// Named edges of the section mesh and their nodes.
#include <algorithm>

#include "mesher/error.h"
#include "mesher/mesh.h"

namespace felloe {

const std::vector<CellFace> &edge(const SectionMesh &mesh, const std::string &name) {
  const auto found = mesh.edges.find(name);
  if (found != mesh.edges.end()) return found->second;
  std::string names;
  for (const auto &entry : mesh.edges) names += (names.empty() ? "" : ", ") + entry.first;
  throw Error("section mesh: no edge '" + name + "'; edges: " + names);
}

std::array<int, 3> edge_nodes(const SectionMesh &mesh, const CellFace &face) {
  // Counter-clockwise round the cell, so that the interior lies to the left.
  static constexpr int local[4][3] = {{6, 3, 0}, {2, 5, 8}, {0, 1, 2}, {8, 7, 6}};
  const auto &cell = mesh.cells[face.cell];
  const int *i = local[face.face];
  return {cell[i[0]], cell[i[1]], cell[i[2]]};
}

std::vector<int> edge_node_set(const SectionMesh &mesh, const std::string &name) {
  std::vector<int> nodes;
  for (const CellFace &face : edge(mesh, name))
    for (const int node : edge_nodes(mesh, face)) nodes.push_back(node);
  std::sort(nodes.begin(), nodes.end());
  nodes.erase(std::unique(nodes.begin(), nodes.end()), nodes.end());
  return nodes;
}

}  // namespace felloe
