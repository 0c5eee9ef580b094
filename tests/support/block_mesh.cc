// SPDX-License-Identifier: GPL-3.0-or-later
// Block by block; coincident nodes found by rounding their positions.
#include "tests/support/block_mesh.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace felloe::test {
namespace {

double size_of(const std::vector<Vec3> &points) {
  Vec3 low = points.front(), high = low;
  for (const Vec3 &x : points)
    for (int i = 0; i < 3; ++i) {
      low[i] = std::min(low[i], x[i]);
      high[i] = std::max(high[i], x[i]);
    }
  return norm(subtract(high, low));
}

/// Index of the first point near each point; points of different keys stay apart.
std::vector<int> merged(const std::vector<Vec3> &points, const std::vector<int> &key) {
  const double tolerance = 1e-9 * size_of(points);
  std::vector<int> order(points.size()), first(points.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = first[i] = static_cast<int>(i);
  std::sort(order.begin(), order.end(), [&](int a, int b) { return points[a] < points[b]; });
  for (std::size_t i = 0; i < order.size(); ++i)
    for (std::size_t j = i + 1; j < order.size(); ++j) {
      const int a = order[i], b = order[j];
      if (points[b][0] - points[a][0] > tolerance) break;
      if (key[a] != key[b] || norm(subtract(points[a], points[b])) > tolerance) continue;
      const int low = std::min(first[a], first[b]);
      first[a] = first[b] = low;
    }
  for (std::size_t i = 0; i < first.size(); ++i)
    while (first[first[i]] != first[i]) first[i] = first[first[i]];
  return first;
}

void add_block(const Block &block, Mesh &mesh, std::vector<int> &key) {
  const auto [na, nb, nc] = block.n;
  const int first = static_cast<int>(mesh.nodes.size());
  for (int k = 0; k <= 2 * nc; ++k)
    for (int j = 0; j <= 2 * nb; ++j)
      for (int i = 0; i <= 2 * na; ++i) {
        mesh.nodes.push_back(block.map({0.5 * i / na, 0.5 * j / nb, 0.5 * k / nc}));
        key.push_back(static_cast<int>(block.part));
      }
  for (int k = 0; k < nc; ++k)
    for (int j = 0; j < nb; ++j)
      for (int i = 0; i < na; ++i) {
        std::array<int, 27> nodes;
        for (int l = 0; l < 27; ++l)
          nodes[l] = first + 2 * i + l % 3 +
                     (2 * na + 1) * (2 * j + l / 3 % 3 + (2 * nb + 1) * (2 * k + l / 9));
        const int cell = static_cast<int>(mesh.cells.size());
        mesh.cells.push_back(nodes);
        mesh.parts.push_back(block.part);
        const std::array<bool, 6> on{i == 0, i == na - 1, j == 0, j == nb - 1, k == 0, k == nc - 1};
        for (int f = 0; f < 6; ++f)
          if (on[f] && !block.sides[f].empty()) mesh.surfaces[block.sides[f]].push_back({cell, f});
      }
}

}  // namespace

Mesh block_mesh(const std::vector<Block> &blocks) {
  Mesh mesh;
  std::vector<int> key;
  for (const Block &block : blocks) add_block(block, mesh, key);
  const std::vector<int> first = merged(mesh.nodes, key);
  std::vector<int> number(first.size(), -1);
  std::vector<Vec3> nodes;
  for (std::size_t i = 0; i < first.size(); ++i)
    if (first[i] == static_cast<int>(i)) {
      number[i] = static_cast<int>(nodes.size());
      nodes.push_back(mesh.nodes[i]);
      mesh.node_parts.push_back(static_cast<Part>(key[i]));
    }
  for (auto &cell : mesh.cells)
    for (int &n : cell) n = number[first[n]];
  mesh.nodes = std::move(nodes);
  return mesh;
}

std::vector<int> nodes_where(const Mesh &mesh, const std::function<bool(const Vec3 &)> &holds) {
  std::vector<int> nodes;
  for (std::size_t n = 0; n < mesh.nodes.size(); ++n)
    if (holds(mesh.nodes[n])) nodes.push_back(static_cast<int>(n));
  return nodes;
}

int node_at(const Mesh &mesh, const Vec3 &x) {
  const double tolerance = 1e-6 * size_of(mesh.nodes);
  for (std::size_t n = 0; n < mesh.nodes.size(); ++n)
    if (norm(subtract(mesh.nodes[n], x)) < tolerance) return static_cast<int>(n);
  throw std::logic_error("the test mesh has no node there");
}

void turn_cells(Mesh &mesh) {
  // Two quarter turns generate all rotations of the cube: (a, b, c) -> (b, 1 - a, c) about c,
  // and the cyclic exchange (a, b, c) -> (b, c, a).
  const auto turn = [&](int c, bool cyclic) {
    std::array<int, 27> turned;
    for (int l = 0; l < 27; ++l) {
      const int i = l % 3, j = l / 3 % 3, k = l / 9;
      turned[cyclic ? j + 3 * k + 9 * i : j + 3 * (2 - i) + 9 * k] = mesh.cells[c][l];
    }
    mesh.cells[c] = turned;
    // Faces a-, a+, b-, b+, c-, c+ under the same turns.
    constexpr std::array<int, 6> exchanged{4, 5, 0, 1, 2, 3}, quarter{3, 2, 0, 1, 4, 5};
    for (auto &surface : mesh.surfaces)
      for (CellFace &f : surface.second)
        if (f.cell == c) f.face = cyclic ? exchanged[f.face] : quarter[f.face];
  };
  for (int c = 0; c < static_cast<int>(mesh.cells.size()); ++c) {
    for (int k = 0; k < c * 7 % 3; ++k) turn(c, true);
    for (int k = 0; k < c * 5 % 4; ++k) turn(c, false);
    for (int k = 0; k < c * 3 % 2; ++k) turn(c, true);
  }
}

Block ring(double r_in, double r_out, double z_low, double z_high, std::array<int, 3> n,
           double angle) {
  Block block;
  block.n = n;
  block.map = [=](const Vec3 &p) {
    return revolved({r_in + (r_out - r_in) * p[0], z_low + (z_high - z_low) * p[2]}, angle * p[1]);
  };
  block.sides = {"inside", "outside", "start", "end", "bottom", "top"};
  if (angle == 2 * pi) block.sides[2] = block.sides[3] = "";
  return block;
}

}  // namespace felloe::test
