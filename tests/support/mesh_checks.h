// SPDX-License-Identifier: GPL-3.0-or-later
// What every hexahedral mesh must fulfil, as numbers that tests compare.
#pragma once
#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numeric>
#include <set>
#include <string>
#include <vector>

#include "mesher/mesh.h"

namespace felloe {

/// Faces that belong to one cell only, and the largest number of cells that share a face.
struct FaceCount {
  std::vector<CellFace> boundary;
  int most_cells = 0;
};

inline FaceCount count_faces(const Mesh &mesh) {
  std::map<std::array<int, 9>, std::pair<int, CellFace>> faces;
  for (int c = 0; c < static_cast<int>(mesh.cells.size()); ++c)
    for (int f = 0; f < 6; ++f) {
      auto key = face_nodes(mesh, {c, f});
      std::sort(key.begin(), key.end());
      auto &entry = faces[key];
      ++entry.first;
      entry.second = {c, f};
    }
  FaceCount count;
  for (const auto &[key, entry] : faces) {
    count.most_cells = std::max(count.most_cells, entry.first);
    if (entry.first == 1) count.boundary.push_back(entry.second);
  }
  return count;
}

/// Number of pieces that no shared node connects; nodes without a cell count as pieces.
inline int count_pieces(const Mesh &mesh) {
  std::vector<int> parent(mesh.nodes.size());
  std::iota(parent.begin(), parent.end(), 0);
  const auto root = [&](int k) {
    while (parent[k] != k) k = parent[k] = parent[parent[k]];
    return k;
  };
  for (const auto &cell : mesh.cells)
    for (const int k : cell) parent[root(k)] = root(cell[0]);
  int pieces = 0;
  for (int k = 0; k < static_cast<int>(parent.size()); ++k) pieces += parent[k] == k;
  return pieces;
}

/// Integral of the outward normal over a quadratic face [mm2] by 3 x 3 Gauss points, and of its
/// length, the face's area.
struct FaceIntegral {
  Vec3 vector{};
  double area = 0;
};

inline FaceIntegral face_integral(const Mesh &mesh, const CellFace &f) {
  const auto nodes = face_nodes(mesh, f);
  const double g = std::sqrt(0.15), x[3] = {0.5 - g, 0.5, 0.5 + g},
               w[3] = {5.0 / 18, 8.0 / 18, 5.0 / 18};
  const auto value = [](int i, double t) {
    return i == 0 ? (1 - t) * (1 - 2 * t) : i == 1 ? 4 * t * (1 - t) : t * (2 * t - 1);
  };
  const auto slope = [](int i, double t) {
    return i == 0 ? 4 * t - 3 : i == 1 ? 4 - 8 * t : 4 * t - 1;
  };
  FaceIntegral sum;
  for (int q = 0; q < 9; ++q) {
    Vec3 du{}, dv{};
    for (int k = 0; k < 9; ++k) {
      const Vec3 &p = mesh.nodes[nodes[k]];
      du = add(du, scale(slope(k % 3, x[q % 3]) * value(k / 3, x[q / 3]), p));
      dv = add(dv, scale(value(k % 3, x[q % 3]) * slope(k / 3, x[q / 3]), p));
    }
    const Vec3 normal = scale(w[q % 3] * w[q / 3], cross(du, dv));
    sum.vector = add(sum.vector, normal);
    sum.area += norm(normal);
  }
  return sum;
}

inline Vec3 area_vector(const Mesh &mesh, const CellFace &f) {
  return face_integral(mesh, f).vector;
}

inline Vec3 area_vector(const Mesh &mesh, const std::vector<CellFace> &faces) {
  Vec3 sum{};
  for (const auto &f : faces) sum = add(sum, area_vector(mesh, f));
  return sum;
}

/// Area of the faces [mm2].
inline double area(const Mesh &mesh, const std::vector<CellFace> &faces) {
  double sum = 0;
  for (const auto &f : faces) sum += face_integral(mesh, f).area;
  return sum;
}

}  // namespace felloe
