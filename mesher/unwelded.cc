// SPDX-License-Identifier: GPL-3.0-or-later
// The wheel as it is between pressing the disc into the rim and welding.
#include "mesher/unwelded.h"

namespace felloe {
namespace {

using NamedFaces = std::map<std::string, std::vector<CellFace>>;

/// How nodes and cells of the welded mesh are numbered without the weld.
struct Numbering {
  std::vector<int> cell;      ///< -1: weld
  std::vector<int> node;      ///< for disc cells and everything named; -1: weld alone
  std::vector<int> rim_node;  ///< for rim cells; differs where disc and rim shared the node
  std::vector<int> origin;    ///< of each new node
};

template <class AnyMesh>
Numbering numbering(const AnyMesh &mesh) {
  const std::size_t n_nodes = mesh.nodes.size();
  std::vector<char> on_disc(n_nodes, 0), on_rim(n_nodes, 0);
  Numbering to;
  int n_cells = 0;
  for (std::size_t c = 0; c < mesh.cells.size(); ++c) {
    const Part part = mesh.parts[c];
    to.cell.push_back(part == Part::weld ? -1 : n_cells++);
    if (part == Part::weld) continue;
    for (const int node : mesh.cells[c]) (part == Part::disc ? on_disc : on_rim)[node] = 1;
  }
  to.node.assign(n_nodes, -1);
  for (std::size_t i = 0; i < n_nodes; ++i) {
    if (!on_disc[i] && !on_rim[i]) continue;
    to.node[i] = int(to.origin.size());
    to.origin.push_back(int(i));
  }
  to.rim_node = to.node;
  for (std::size_t i = 0; i < n_nodes; ++i) {
    if (!on_disc[i] || !on_rim[i]) continue;
    to.rim_node[i] = int(to.origin.size());
    to.origin.push_back(int(i));
  }
  return to;
}

NamedFaces renumbered(const NamedFaces &names, const Numbering &to) {
  NamedFaces result;
  for (const auto &[name, faces] : names)
    for (const CellFace &f : faces)
      if (to.cell[f.cell] >= 0) result[name].push_back({to.cell[f.cell], f.face});
  return result;
}

/// Everything that 3D and section meshes have in common.
template <class AnyMesh>
void copy_common(const AnyMesh &from, const Numbering &to, AnyMesh &mesh) {
  const std::size_t n_kept = from.nodes.size();
  for (std::size_t k = 0; k < to.origin.size(); ++k) {
    const int i = to.origin[k];
    mesh.nodes.push_back(from.nodes[i]);
    if (from.node_parts.size() == n_kept)
      mesh.node_parts.push_back(to.node[i] == int(k) ? from.node_parts[i] : Part::rim);
    if (from.node_points.size() == n_kept) mesh.node_points.push_back(from.node_points[i]);
  }
  for (std::size_t c = 0; c < from.cells.size(); ++c) {
    if (to.cell[c] < 0) continue;
    auto cell = from.cells[c];
    for (int &node : cell) node = (from.parts[c] == Part::rim ? to.rim_node : to.node)[node];
    mesh.cells.push_back(cell);
    mesh.parts.push_back(from.parts[c]);
  }
  for (const PressFitPair &pair : from.press_fit)
    mesh.press_fit.push_back({to.node[pair.disc_node], to.rim_node[pair.rim_node]});
}

template <class Unwelded>
void split_shared_nodes(const Numbering &to, Unwelded &result) {
  result.node = to.node;
  for (std::size_t i = 0; i < to.node.size(); ++i)
    if (to.node[i] != to.rim_node[i]) result.split.push_back({to.node[i], to.rim_node[i]});
  auto &pairs = result.mesh.press_fit;
  pairs.insert(pairs.end(), result.split.begin(), result.split.end());
}

}  // namespace

UnweldedMesh unwelded(const Mesh &from) {
  const Numbering to = numbering(from);
  UnweldedMesh result;
  Mesh &mesh = result.mesh;
  copy_common(from, to, mesh);
  mesh.surfaces = renumbered(from.surfaces, to);
  for (const auto &[name, nodes] : from.lines) {
    std::vector<int> kept;
    for (const int i : nodes)
      if (to.node[i] >= 0) kept.push_back(to.node[i]);
    if (!kept.empty()) mesh.lines[name] = kept;
  }
  if (from.position) {
    std::vector<int> origin;
    for (std::size_t c = 0; c < to.cell.size(); ++c)
      if (to.cell[c] >= 0) origin.push_back(int(c));
    mesh.position = [position = from.position, origin](int cell, const Vec3 &unit) {
      return position(origin[cell], unit);
    };
  }
  mesh.symmetry = from.symmetry;
  mesh.n_theta = from.n_theta;
  if (!from.turned.empty())
    for (std::size_t k = 0; k < to.origin.size(); ++k) {
      const int i = to.origin[k], j = from.turned[i];
      mesh.turned.push_back(to.node[i] == int(k) ? to.node[j] : to.rim_node[j]);
    }
  split_shared_nodes(to, result);
  return result;
}

UnweldedSection unwelded(const SectionMesh &from) {
  const Numbering to = numbering(from);
  UnweldedSection result;
  copy_common(from, to, result.mesh);
  result.mesh.edges = renumbered(from.edges, to);
  for (const auto &[name, i] : from.points)
    if (to.node[i] >= 0) result.mesh.points[name] = to.node[i];
  split_shared_nodes(to, result);
  return result;
}

}  // namespace felloe
