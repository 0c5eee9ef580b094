// SPDX-License-Identifier: GPL-3.0-or-later
// Look-ups by name and the orientation of faces and edges.
#include "mesher/mesh.h"

#include <algorithm>

#include "mesher/error.h"

namespace felloe {
namespace {

template <class Map>
const typename Map::mapped_type &named(const Map &map, const std::string &what,
                                       const std::string &name) {
  const auto at = map.find(name);
  if (at != map.end()) return at->second;
  std::string names;
  for (const auto &entry : map) names += (names.empty() ? "" : ", ") + entry.first;
  throw Error("mesh: there is no " + what + " \"" + name + "\"; there are: " + names);
}

template <class Faces, class NodesOf>
std::vector<int> distinct_nodes(const Faces &faces, NodesOf nodes_of) {
  std::vector<int> nodes;
  for (const auto &f : faces)
    for (const int k : nodes_of(f)) nodes.push_back(k);
  std::sort(nodes.begin(), nodes.end());
  nodes.erase(std::unique(nodes.begin(), nodes.end()), nodes.end());
  return nodes;
}

}  // namespace

const std::vector<CellFace> &surface(const Mesh &mesh, const std::string &name) {
  return named(mesh.surfaces, "surface", name);
}

const std::vector<CellFace> &edge(const SectionMesh &mesh, const std::string &name) {
  return named(mesh.edges, "edge", name);
}

const std::vector<int> &line(const Mesh &mesh, const std::string &name) {
  return named(mesh.lines, "line", name);
}

std::array<int, 9> face_nodes(const Mesh &mesh, const CellFace &f) {
  static const int stride[3] = {1, 3, 9};
  const int axis = f.face / 2;
  const bool plus = f.face % 2 == 1;
  // the two other axes in cyclic order turn towards +axis; swapped on the minus side
  int u = (axis + 1) % 3, v = (axis + 2) % 3;
  if (!plus) std::swap(u, v);
  std::array<int, 9> nodes{};
  for (int j = 0; j < 3; ++j)
    for (int i = 0; i < 3; ++i)
      nodes[i + 3 * j] =
          mesh.cells[f.cell][(plus ? 2 : 0) * stride[axis] + i * stride[u] + j * stride[v]];
  return nodes;
}

std::array<int, 3> edge_nodes(const SectionMesh &mesh, const CellFace &f) {
  // counter-clockwise round the cell
  static const int local[4][3] = {{6, 3, 0}, {2, 5, 8}, {0, 1, 2}, {8, 7, 6}};
  const auto &cell = mesh.cells[f.cell];
  return {cell[local[f.face][0]], cell[local[f.face][1]], cell[local[f.face][2]]};
}

std::vector<int> surface_nodes(const Mesh &mesh, const std::string &name) {
  return distinct_nodes(surface(mesh, name),
                        [&](const CellFace &f) { return face_nodes(mesh, f); });
}

std::vector<int> edge_node_set(const SectionMesh &mesh, const std::string &name) {
  return distinct_nodes(edge(mesh, name), [&](const CellFace &f) { return edge_nodes(mesh, f); });
}

}  // namespace felloe
