// SPDX-License-Identifier: GPL-3.0-or-later
// The section as it is between pressing the disc into the rim and welding.
#include "mesher/unwelded_section.h"

namespace felloe {
namespace {

/// How nodes and cells of the welded section are numbered without the weld.
struct Numbering {
  std::vector<int> cell;      ///< -1: weld
  std::vector<int> node;      ///< for disc cells and everything named; -1: weld alone
  std::vector<int> rim_node;  ///< for rim cells; differs where disc and rim shared the node
  std::vector<int> origin;    ///< of each new node
};

Numbering numbering(const SectionMesh &mesh) {
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
  const auto add = [&to](std::vector<int> &node, std::size_t i) {
    node[i] = int(to.origin.size());
    to.origin.push_back(int(i));
  };
  for (std::size_t i = 0; i < n_nodes; ++i)
    if (on_disc[i] || on_rim[i]) add(to.node, i);
  to.rim_node = to.node;
  for (std::size_t i = 0; i < n_nodes; ++i)
    if (on_disc[i] && on_rim[i]) add(to.rim_node, i);
  return to;
}

void copy_nodes(const SectionMesh &from, const Numbering &to, SectionMesh &mesh) {
  for (std::size_t k = 0; k < to.origin.size(); ++k) {
    const int i = to.origin[k];
    mesh.nodes.push_back(from.nodes[i]);
    if (!from.node_parts.empty())
      mesh.node_parts.push_back(to.node[i] == int(k) ? from.node_parts[i] : Part::rim);
    if (!from.node_points.empty()) mesh.node_points.push_back(from.node_points[i]);
  }
}

void copy_cells(const SectionMesh &from, const Numbering &to, SectionMesh &mesh) {
  for (std::size_t c = 0; c < from.cells.size(); ++c) {
    if (to.cell[c] < 0) continue;
    auto cell = from.cells[c];
    for (int &node : cell) node = (from.parts[c] == Part::rim ? to.rim_node : to.node)[node];
    mesh.cells.push_back(cell);
    mesh.parts.push_back(from.parts[c]);
  }
  for (const auto &[name, faces] : from.edges)
    for (const CellFace &f : faces)
      if (to.cell[f.cell] >= 0) mesh.edges[name].push_back({to.cell[f.cell], f.face});
}

}  // namespace

UnweldedSection unwelded(const SectionMesh &from) {
  const Numbering to = numbering(from);
  UnweldedSection result;
  copy_nodes(from, to, result.mesh);
  copy_cells(from, to, result.mesh);
  for (const auto &[name, i] : from.points)
    if (to.node[i] >= 0) result.mesh.points[name] = to.node[i];
  for (std::size_t i = 0; i < to.node.size(); ++i)
    if (to.node[i] != to.rim_node[i]) result.split.push_back({to.node[i], to.rim_node[i]});
  auto &pairs = result.mesh.press_fit;
  for (const PressFitPair &pair : from.press_fit)
    pairs.push_back({to.node[pair.disc_node], to.rim_node[pair.rim_node]});
  pairs.insert(pairs.end(), result.split.begin(), result.split.end());
  result.node = to.node;
  return result;
}

}  // namespace felloe
