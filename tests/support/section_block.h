// SPDX-License-Identifier: GPL-3.0-or-later
// Structured section meshes for tests: a mapped block of quads with named edges and corner points.
#pragma once
#include <cmath>
#include <functional>
#include <string>

#include "mesher/mesh.h"

namespace felloe::test {

using SectionMap = std::function<Vec2(double a, double b)>;

/// n_a x n_b quads; node (i, j) at map(i / (2 n_a), j / (2 n_b)). Edges prefix + "inner" (a = 0),
/// "outer" (a = 1), "bottom" (b = 0), "top" (b = 1); points prefix + "inner bottom" and so on.
/// straight: mid nodes are averages of the corners, so that cells are bilinear.
inline SectionMesh section_block(int n_a, int n_b, const SectionMap &map, Part part = Part::disc,
                                 const std::string &prefix = "", bool straight = false) {
  SectionMesh mesh;
  const int width = 2 * n_a + 1;
  const auto at = [&](int i, int j) { return map(i / (2. * n_a), j / (2. * n_b)); };
  const auto average = [](const Vec2 &x, const Vec2 &y) {
    return Vec2{(x[0] + y[0]) / 2, (x[1] + y[1]) / 2};
  };
  for (int j = 0; j <= 2 * n_b; ++j)
    for (int i = 0; i <= 2 * n_a; ++i) {
      Vec2 x = at(i, j);
      if (straight) {
        const int i0 = i - i % 2, i1 = i + i % 2, j0 = j - j % 2, j1 = j + j % 2;
        x = average(average(at(i0, j0), at(i1, j0)), average(at(i0, j1), at(i1, j1)));
      }
      mesh.nodes.push_back(x);
    }
  for (int j = 0; j < n_b; ++j)
    for (int i = 0; i < n_a; ++i) {
      const int cell = int(mesh.cells.size());
      std::array<int, 9> nodes;
      for (int k = 0; k < 9; ++k) nodes[k] = 2 * i + k % 3 + width * (2 * j + k / 3);
      mesh.cells.push_back(nodes);
      mesh.parts.push_back(part);
      if (i == 0) mesh.edges[prefix + "inner"].push_back({cell, 0});
      if (i == n_a - 1) mesh.edges[prefix + "outer"].push_back({cell, 1});
      if (j == 0) mesh.edges[prefix + "bottom"].push_back({cell, 2});
      if (j == n_b - 1) mesh.edges[prefix + "top"].push_back({cell, 3});
    }
  mesh.node_parts.assign(mesh.nodes.size(), part);
  mesh.points[prefix + "inner bottom"] = 0;
  mesh.points[prefix + "outer bottom"] = 2 * n_a;
  mesh.points[prefix + "inner top"] = width * 2 * n_b;
  mesh.points[prefix + "outer top"] = width * (2 * n_b + 1) - 1;
  return mesh;
}

/// Rectangle r0 <= r <= r1, z0 <= z <= z1.
inline SectionMesh rectangle(double r0, double r1, double z0, double z1, int n_r, int n_z,
                             Part part = Part::disc, const std::string &prefix = "") {
  return section_block(
      n_r, n_z,
      [=](double a, double b) {
        return Vec2{r0 + a * (r1 - r0), z0 + b * (z1 - z0)};
      },
      part, prefix);
}

/// The rectangle with its inner grid lines bent by amount (0.1: strongly), cells straight-sided.
inline SectionMesh distorted_rectangle(double r0, double r1, double z0, double z1, int n_r, int n_z,
                                       double amount) {
  return section_block(
      n_r, n_z,
      [=](double a, double b) {
        const double bump = amount * std::sin(pi * a) * std::sin(pi * b);
        const double x = a + bump * std::cos(3 * b), y = b - bump * std::sin(2 + 5 * a);
        return Vec2{r0 + x * (r1 - r0), z0 + y * (z1 - z0)};
      },
      Part::disc, "", true);
}

/// Adds another mesh without sharing nodes.
inline void append(SectionMesh &mesh, const SectionMesh &other) {
  const int n_nodes = int(mesh.nodes.size()), n_cells = int(mesh.cells.size());
  mesh.nodes.insert(mesh.nodes.end(), other.nodes.begin(), other.nodes.end());
  mesh.node_parts.insert(mesh.node_parts.end(), other.node_parts.begin(), other.node_parts.end());
  mesh.parts.insert(mesh.parts.end(), other.parts.begin(), other.parts.end());
  for (auto cell : other.cells) {
    for (int &node : cell) node += n_nodes;
    mesh.cells.push_back(cell);
  }
  for (const auto &[name, faces] : other.edges)
    for (CellFace face : faces) mesh.edges[name].push_back({face.cell + n_cells, face.face});
  for (const auto &[name, node] : other.points) mesh.points[name] = node + n_nodes;
}

/// Pairs of coincident nodes of two edges become press-fit pairs.
inline void pair_up(SectionMesh &mesh, const std::string &disc_edge, const std::string &rim_edge) {
  for (const int a : edge_node_set(mesh, disc_edge))
    for (const int b : edge_node_set(mesh, rim_edge))
      if (std::hypot(mesh.nodes[a][0] - mesh.nodes[b][0], mesh.nodes[a][1] - mesh.nodes[b][1]) <
          1e-9)
        mesh.press_fit.push_back({a, b});
}

/// The node nearest to (r, z).
inline int node_at(const SectionMesh &mesh, double r, double z) {
  int best = 0;
  double nearest = 1e300;
  for (int i = 0; i < int(mesh.nodes.size()); ++i) {
    const double d = std::hypot(mesh.nodes[i][0] - r, mesh.nodes[i][1] - z);
    if (d < nearest) {
      nearest = d;
      best = i;
    }
  }
  return best;
}

}  // namespace felloe::test
