// SPDX-License-Identifier: GPL-3.0-or-later
// The outer surface of a mesh as fine triangles for pictures, and whether a point can be seen.
#include "post/skin.h"

#include <algorithm>

namespace felloe {
namespace {

std::array<double, 3> quadratic_slope(double x) { return {4 * x - 3, 4 - 8 * x, 4 * x - 1}; }

Vec3 unit(const Vec3 &v) {
  const double length = norm(v);
  return length > 0 ? scale(1 / length, v) : v;
}

struct FacePoint {
  Vec3 position, normal;
  double value;
};

FacePoint at(const Mesh &mesh, const std::array<int, 9> &nodes, const std::vector<double> &values,
             double u, double v) {
  const auto nu = quadratic_shape(u), nv = quadratic_shape(v);
  const auto du = quadratic_slope(u), dv = quadratic_slope(v);
  Vec3 position{}, along_u{}, along_v{};
  double value = 0;
  for (int j = 0; j < 3; ++j)
    for (int i = 0; i < 3; ++i) {
      const Vec3 &x = mesh.nodes[nodes[i + 3 * j]];
      position = add(position, scale(nu[i] * nv[j], x));
      along_u = add(along_u, scale(du[i] * nv[j], x));
      along_v = add(along_v, scale(nu[i] * dv[j], x));
      if (!values.empty()) value += nu[i] * nv[j] * values[nodes[i + 3 * j]];
    }
  return {position, unit(cross(along_u, along_v)), value};
}

/// One edge of an outer face: its ends, its middle node and the face normal there.
struct FaceEdge {
  std::array<int, 2> ends;  // ascending: the key
  int middle;
  Vec3 normal;
};

void append_edges(std::vector<FaceEdge> &edges, const Mesh &mesh, const std::array<int, 9> &n) {
  struct Side {
    int first, middle, last;
    double u, v;
  };
  for (const Side &s :
       {Side{0, 1, 2, .5, 0}, Side{6, 7, 8, .5, 1}, Side{0, 3, 6, 0, .5}, Side{2, 5, 8, 1, .5}})
    edges.push_back({{std::min(n[s.first], n[s.last]), std::max(n[s.first], n[s.last])},
                     n[s.middle],
                     at(mesh, n, {}, s.u, s.v).normal});
}

std::vector<std::vector<Vec3>> folds(const Mesh &mesh, std::vector<FaceEdge> edges, int divisions,
                                     double fold) {
  std::sort(edges.begin(), edges.end(),
            [](const FaceEdge &a, const FaceEdge &b) { return a.ends < b.ends; });
  std::vector<std::vector<Vec3>> lines;
  for (std::size_t i = 0; i + 1 < edges.size(); ++i) {
    if (edges[i].ends != edges[i + 1].ends) continue;
    if (dot(edges[i].normal, edges[i + 1].normal) > std::cos(fold)) continue;
    std::vector<Vec3> line;
    for (int k = 0; k <= divisions; ++k) {
      const auto n = quadratic_shape(double(k) / divisions);
      line.push_back(add(
          add(scale(n[0], mesh.nodes[edges[i].ends[0]]), scale(n[1], mesh.nodes[edges[i].middle])),
          scale(n[2], mesh.nodes[edges[i].ends[1]])));
    }
    lines.push_back(std::move(line));
  }
  return lines;
}

}  // namespace

std::array<double, 3> quadratic_shape(double x) {
  return {(1 - x) * (1 - 2 * x), 4 * x * (1 - x), x * (2 * x - 1)};
}

std::vector<CellFace> boundary_faces(const Mesh &mesh) {
  const auto for_all = [&](const auto &visit) {
    for (int c = 0; c < int(mesh.cells.size()); ++c)
      for (int f = 0; f < 6; ++f) visit(CellFace{c, f});
  };
  // The node in the middle of a face belongs to that face alone.
  const auto middle = [&](const CellFace &face) { return face_nodes(mesh, face)[4]; };
  std::vector<int> n_cells(mesh.nodes.size(), 0);
  for_all([&](const CellFace &face) { ++n_cells[middle(face)]; });
  std::vector<CellFace> single;
  for_all([&](const CellFace &face) {
    if (n_cells[middle(face)] == 1) single.push_back(face);
  });
  return single;
}

Skin skin(const Mesh &mesh, const std::vector<CellFace> &faces,
          const std::vector<double> &nodal_values, int divisions, double fold) {
  Skin out;
  std::vector<FaceEdge> edges;
  for (const CellFace &face : faces) {
    const auto nodes = face_nodes(mesh, face);
    append_edges(edges, mesh, nodes);
    const int first = int(out.points.size());
    for (int j = 0; j <= divisions; ++j)
      for (int i = 0; i <= divisions; ++i) {
        const FacePoint p =
            at(mesh, nodes, nodal_values, double(i) / divisions, double(j) / divisions);
        out.points.push_back(p.position);
        out.normals.push_back(p.normal);
        out.values.push_back(p.value);
      }
    for (int j = 0; j < divisions; ++j)
      for (int i = 0; i < divisions; ++i) {
        const int a = first + i + (divisions + 1) * j, b = a + 1, d = a + divisions + 1, c = d + 1;
        out.triangles.push_back({a, b, c});
        out.triangles.push_back({a, c, d});
      }
  }
  out.sharp_edges = folds(mesh, std::move(edges), divisions, fold);
  return out;
}

// Moeller and Trumbore, Fast, minimum storage ray/triangle intersection, J. Graphics Tools 2, 1997.
bool visible(const Skin &skin, const Vec3 &point, const Vec3 &towards_eye, double clearance) {
  for (const auto &t : skin.triangles) {
    const Vec3 e1 = subtract(skin.points[t[1]], skin.points[t[0]]);
    const Vec3 e2 = subtract(skin.points[t[2]], skin.points[t[0]]);
    const Vec3 p = cross(towards_eye, e2);
    const double determinant = dot(e1, p);
    if (std::abs(determinant) < 1e-14) continue;
    const Vec3 s = subtract(point, skin.points[t[0]]);
    const double u = dot(s, p) / determinant;
    if (u < 0 || u > 1) continue;
    const Vec3 q = cross(s, e1);
    const double v = dot(towards_eye, q) / determinant;
    if (v < 0 || u + v > 1) continue;
    if (dot(e2, q) / determinant > clearance) return false;
  }
  return true;
}

}  // namespace felloe
