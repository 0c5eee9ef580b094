// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/detail/sector_mesh.h"

#include <algorithm>
#include <cmath>

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
/// border: the largest divisor of the symmetry up to this number is used.
constexpr int most_sectors = 12;

int sector_count(int symmetry) {
  int n = std::min(symmetry, most_sectors);
  while (symmetry % n != 0) --n;
  return n;
}

/// Where each node comes to by one sector's turn.
std::vector<int> turned_by_sector(const Mesh &mesh, int n_sectors) {
  std::vector<int> turned = mesh.turned;
  for (int k = 1; k < mesh.symmetry / n_sectors; ++k)
    for (int &n : turned) n = mesh.turned[n];
  return turned;
}

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
  std::vector<int> local_node(mesh.nodes.size(), -1), local_cell(mesh.cells.size(), -1);
  std::vector<int> base;
  for (const int c : sector.cells)
    for (const int n : mesh.cells[c]) base.push_back(n);
  std::sort(base.begin(), base.end());
  base.erase(std::unique(base.begin(), base.end()), base.end());
  for (std::size_t i = 0; i < base.size(); ++i) local_node[base[i]] = static_cast<int>(i);
  for (std::size_t c = 0; c < sector.cells.size(); ++c)
    local_cell[sector.cells[c]] = static_cast<int>(c);

  sector.whole.push_back(base);
  for (int k = 1; k < n_sectors; ++k) {
    std::vector<int> next;
    next.reserve(base.size());
    for (const int n : sector.whole.back()) next.push_back(turned[n]);
    sector.whole.push_back(std::move(next));
  }
  if (!find_cuts(mesh, turned, width, local_node, sector)) return std::nullopt;

  Mesh &piece = sector.piece;
  for (const int n : base) piece.nodes.push_back(mesh.nodes[n]);
  for (const int c : sector.cells) {
    std::array<int, 27> nodes;
    for (int k = 0; k < 27; ++k) nodes[k] = local_node[mesh.cells[c][k]];
    piece.cells.push_back(nodes);
    piece.parts.push_back(mesh.parts[c]);
  }
  copy_names(mesh, local_node, local_cell, piece);
  return sector;
}

}  // namespace felloe::detail
