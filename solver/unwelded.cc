// SPDX-License-Identifier: GPL-3.0-or-later
// Takes the weld's cells away and parts disc from rim.
#include "solver/unwelded.h"

namespace felloe {
namespace {

/// Which nodes belong to cells of the part.
std::vector<bool> nodes_of(const Mesh &mesh, Part part) {
  std::vector<bool> owned(mesh.nodes.size(), false);
  for (std::size_t c = 0; c < mesh.cells.size(); ++c)
    if (mesh.parts[c] == part)
      for (const int n : mesh.cells[c]) owned[n] = true;
  return owned;
}

void drop_weld(const Mesh &mesh, Mesh &result) {
  std::vector<int> new_cell(mesh.cells.size(), -1), old_cell;
  result.cells.clear();
  result.parts.clear();
  for (std::size_t c = 0; c < mesh.cells.size(); ++c) {
    if (mesh.parts[c] == Part::weld) continue;
    new_cell[c] = static_cast<int>(old_cell.size());
    old_cell.push_back(static_cast<int>(c));
    result.cells.push_back(mesh.cells[c]);
    result.parts.push_back(mesh.parts[c]);
  }
  result.surfaces.clear();
  for (const auto &[name, faces] : mesh.surfaces)
    for (const CellFace &f : faces)
      if (new_cell[f.cell] >= 0) result.surfaces[name].push_back({new_cell[f.cell], f.face});
  if (mesh.position)
    result.position = [position = mesh.position, old_cell](int cell, const Vec3 &unit) {
      return position(old_cell[cell], unit);
    };
}

}  // namespace

Mesh unwelded(const Mesh &mesh) {
  Mesh result = mesh;
  drop_weld(mesh, result);
  const std::vector<bool> on_disc = nodes_of(mesh, Part::disc), on_rim = nodes_of(mesh, Part::rim);
  std::vector<int> twin(mesh.nodes.size(), -1);
  std::vector<int> &stop = result.lines["press-fit stop"];
  for (std::size_t n = 0; n < mesh.nodes.size(); ++n) {
    if (!on_disc[n] || !on_rim[n]) continue;
    twin[n] = static_cast<int>(result.nodes.size());
    stop.push_back(twin[n]);
    result.nodes.push_back(mesh.nodes[n]);
    if (!mesh.node_parts.empty()) result.node_parts.push_back(Part::rim);
    if (!mesh.node_points.empty()) result.node_points.push_back(mesh.node_points[n]);
    result.press_fit.push_back({static_cast<int>(n), twin[n]});
  }
  for (std::size_t c = 0; c < result.cells.size(); ++c)
    if (result.parts[c] == Part::rim)
      for (int &n : result.cells[c])
        if (twin[n] >= 0) n = twin[n];
  if (!mesh.turned.empty())
    for (std::size_t n = 0; n < twin.size(); ++n)
      if (twin[n] >= 0) result.turned.push_back(twin[mesh.turned[n]]);
  return result;
}

}  // namespace felloe
