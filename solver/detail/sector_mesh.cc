// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/detail/sector_mesh.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace felloe::detail {
namespace {

/// Angle of a point from -eps to 2 pi - eps: cells whose centre lies on the first cut belong to
/// sector 0 whatever the rounding.
double angle_of(const Vec3 &x) {
  constexpr double eps = 1e-6;
  const double a = std::atan2(x[1], x[0]);
  return a < -eps ? a + 2 * pi : a;
}

/// A ring without holes repeats itself at every division of its circles. Slices that thin are all
/// border.
constexpr int most_sectors = 12;

std::vector<int> cells_of_sector(const Mesh &mesh, double width) {
  std::vector<int> cells;
  for (std::size_t c = 0; c < mesh.cells.size(); ++c) {
    Vec3 centre{};
    for (const int n : mesh.cells[c]) centre = add(centre, mesh.nodes[n]);
    if (angle_of(centre) < width - 1e-6) cells.push_back(static_cast<int>(c));
  }
  return cells;
}

/// Faces, lines and pairs whose nodes all lie in the piece.
void copy_names(const Mesh &mesh, const std::vector<int> &local_node,
                const std::vector<int> &local_cell, Mesh &piece) {
  for (const auto &[name, faces] : mesh.surfaces) {
    auto &to = piece.surfaces[name];
    for (const CellFace &f : faces)
      if (local_cell[f.cell] >= 0) to.push_back({local_cell[f.cell], f.face});
  }
  for (const auto &[name, nodes] : mesh.lines) {
    auto &to = piece.lines[name];
    for (const int n : nodes)
      if (local_node[n] >= 0) to.push_back(local_node[n]);
  }
  for (const PressFitPair &p : mesh.press_fit)
    if (local_node[p.disc_node] >= 0 && local_node[p.rim_node] >= 0)
      piece.press_fit.push_back({local_node[p.disc_node], local_node[p.rim_node]});
}

}  // namespace

int sector_count(int symmetry) {
  int n = std::clamp(symmetry, 1, most_sectors);
  while (symmetry % n != 0) --n;
  return n;
}

std::vector<int> turned_by_sector(const Mesh &mesh, int n_sectors) {
  std::vector<int> turned = mesh.turned;
  if (n_sectors == 1) {
    turned.resize(mesh.nodes.size());
    std::iota(turned.begin(), turned.end(), 0);
    return turned;
  }
  for (int k = 1; k < mesh.symmetry / n_sectors; ++k)
    for (int &n : turned) n = mesh.turned[n];
  return turned;
}

Piece cut_out(const Mesh &mesh, const std::vector<int> &cells) {
  Piece cut;
  std::vector<int> local_node(mesh.nodes.size(), -1), local_cell(mesh.cells.size(), -1);
  for (const int c : cells)
    for (const int n : mesh.cells[c]) local_node[n] = 0;
  for (std::size_t n = 0; n < local_node.size(); ++n)
    if (local_node[n] == 0) {
      local_node[n] = static_cast<int>(cut.nodes.size());
      cut.nodes.push_back(static_cast<int>(n));
      cut.mesh.nodes.push_back(mesh.nodes[n]);
    }
  for (std::size_t c = 0; c < cells.size(); ++c) {
    local_cell[cells[c]] = static_cast<int>(c);
    std::array<int, 27> nodes;
    for (int k = 0; k < 27; ++k) nodes[k] = local_node[mesh.cells[cells[c]][k]];
    cut.mesh.cells.push_back(nodes);
    cut.mesh.parts.push_back(mesh.parts[cells[c]]);
  }
  copy_names(mesh, local_node, local_cell, cut.mesh);
  return cut;
}

namespace {

/// Pairs the nodes of both cuts; false when they do not match.
bool find_cuts(const Mesh &mesh, const std::vector<int> &turned, double width,
               const std::vector<int> &local_node, SectorMesh &sector) {
  std::vector<int> backward(mesh.nodes.size(), -1);
  for (std::size_t n = 0; n < turned.size(); ++n) backward[turned[n]] = static_cast<int>(n);
  std::size_t n_right = 0;
  for (const int node : sector.whole[0]) {
    const bool shared = local_node[turned[node]] >= 0 || local_node[backward[node]] >= 0;
    if (!shared) continue;
    const double a = std::atan2(mesh.nodes[node][1], mesh.nodes[node][0]);
    if (std::abs(a) > 0.5 * width) {
      ++n_right;
      continue;
    }
    const int partner = local_node[turned[node]];
    if (partner < 0) return false;
    sector.left.push_back(local_node[node]);
    sector.right.push_back(partner);
  }
  return !sector.left.empty() && n_right == sector.right.size();
}

}  // namespace

std::optional<SectorMesh> sector_mesh(const Mesh &mesh) {
  if (mesh.symmetry < 2 || mesh.turned.size() != mesh.nodes.size()) return std::nullopt;
  const int n_sectors = sector_count(mesh.symmetry);
  if (n_sectors < 2) return std::nullopt;
  const double width = 2 * pi / n_sectors;
  const std::vector<int> turned = turned_by_sector(mesh, n_sectors);
  SectorMesh sector;
  sector.cells = cells_of_sector(mesh, width);
  if (sector.cells.size() * n_sectors != mesh.cells.size()) return std::nullopt;
  Piece cut = cut_out(mesh, sector.cells);
  std::vector<int> local_node(mesh.nodes.size(), -1);
  for (std::size_t i = 0; i < cut.nodes.size(); ++i) local_node[cut.nodes[i]] = static_cast<int>(i);

  sector.whole.push_back(cut.nodes);
  for (int k = 1; k < n_sectors; ++k) {
    std::vector<int> next;
    next.reserve(cut.nodes.size());
    for (const int n : sector.whole.back()) next.push_back(turned[n]);
    sector.whole.push_back(std::move(next));
  }
  if (!find_cuts(mesh, turned, width, local_node, sector)) return std::nullopt;
  sector.piece = std::move(cut.mesh);
  return sector;
}

}  // namespace felloe::detail
