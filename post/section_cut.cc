// SPDX-License-Identifier: GPL-3.0-or-later
// The meridian section of a 3D mesh at a given angle.
#include "post/section_cut.h"

#include <algorithm>

namespace felloe {
namespace {

/// A point in the frame of the half plane: (r, z) in it, `off` its distance from it.
struct Placed {
  Vec2 rz;
  double off, value;
};

class HalfPlane {
 public:
  explicit HalfPlane(double theta) : cosine_(std::cos(theta)), sine_(std::sin(theta)) {}
  Placed place(const Vec3 &x, double value) const {
    return {{cosine_ * x[0] + sine_ * x[1], x[2]}, cosine_ * x[1] - sine_ * x[0], value};
  }

 private:
  double cosine_, sine_;
};

Placed crossing(const Placed &a, const Placed &b) {
  const double w = a.off / (a.off - b.off);
  return {{a.rz[0] + w * (b.rz[0] - a.rz[0]), a.rz[1] + w * (b.rz[1] - a.rz[1])},
          0,
          a.value + w * (b.value - a.value)};
}

void add_triangle(SectionCut &cut, const Placed &a, const Placed &b, const Placed &c) {
  const int first = static_cast<int>(cut.points.size());
  for (const Placed *p : {&a, &b, &c}) {
    cut.points.push_back(p->rz);
    cut.values.push_back(p->value);
  }
  cut.triangles.push_back({first, first + 1, first + 2});
}

void cut_tetrahedron(SectionCut &cut, const std::array<Placed, 4> &t) {
  std::array<int, 4> order{0, 1, 2, 3};
  const auto end = std::partition(order.begin(), order.end(), [&](int i) { return t[i].off >= 0; });
  const int n_above = static_cast<int>(end - order.begin());
  const auto between = [&](int i, int j) { return crossing(t[order[i]], t[order[j]]); };
  if (n_above == 1)
    add_triangle(cut, between(0, 1), between(0, 2), between(0, 3));
  else if (n_above == 3)
    add_triangle(cut, between(0, 3), between(1, 3), between(2, 3));
  else if (n_above == 2) {
    const Placed a = between(0, 2), b = between(0, 3), c = between(1, 3), d = between(1, 2);
    add_triangle(cut, a, b, c);
    add_triangle(cut, a, c, d);
  }
}

void cut_cell(SectionCut &cut, const HalfPlane &plane, const Mesh &mesh,
              const std::array<int, 27> &cell, const std::vector<double> &values, int divisions) {
  const int n = divisions + 1;
  std::vector<Placed> points;
  for (int k = 0; k < n; ++k)
    for (int j = 0; j < n; ++j)
      for (int i = 0; i < n; ++i) {
        const auto a = quadratic_shape(double(i) / divisions),
                   b = quadratic_shape(double(j) / divisions),
                   c = quadratic_shape(double(k) / divisions);
        Vec3 x{};
        double value = 0;
        for (int m = 0; m < 27; ++m) {
          const double weight = a[m % 3] * b[m / 3 % 3] * c[m / 9];
          x = add(x, scale(weight, mesh.nodes[cell[m]]));
          value += weight * values[cell[m]];
        }
        points.push_back(plane.place(x, value));
      }
  // Six tetrahedra round the diagonal from corner 0 to corner 7; bits of a corner: (i, j, k).
  constexpr int tetrahedra[6][4] = {{0, 1, 3, 7}, {0, 3, 2, 7}, {0, 2, 6, 7},
                                    {0, 6, 4, 7}, {0, 4, 5, 7}, {0, 5, 1, 7}};
  for (int k = 0; k < divisions; ++k)
    for (int j = 0; j < divisions; ++j)
      for (int i = 0; i < divisions; ++i)
        for (const auto &corners : tetrahedra) {
          std::array<Placed, 4> t;
          for (int m = 0; m < 4; ++m)
            t[m] = points[i + (corners[m] & 1) + n * (j + (corners[m] >> 1 & 1)) +
                          n * n * (k + (corners[m] >> 2))];
          cut_tetrahedron(cut, t);
        }
}

void cut_skin(SectionCut &cut, const HalfPlane &plane, const Skin &skin) {
  for (const auto &triangle : skin.triangles) {
    std::array<Placed, 3> p;
    for (int m = 0; m < 3; ++m) p[m] = plane.place(skin.points[triangle[m]], 0);
    std::vector<Vec2> ends;
    for (int m = 0; m < 3; ++m)
      if ((p[m].off >= 0) != (p[(m + 1) % 3].off >= 0))
        ends.push_back(crossing(p[m], p[(m + 1) % 3]).rz);
    if (ends.size() == 2 && ends[0][0] > 0) cut.outline.push_back({ends[0], ends[1]});
  }
}

}  // namespace

SectionCut section_cut(const Mesh &mesh, const std::vector<double> &nodal_values, const Skin &skin,
                       double theta, int divisions) {
  // A hair beside the asked angle: meshes of wheels have whole layers of nodes in one half plane,
  // where rounding would decide to which side each of them belongs.
  const HalfPlane plane(theta + 1.7e-6);
  SectionCut cut;
  for (std::size_t c = 0; c < mesh.cells.size(); ++c) {
    const auto &cell = mesh.cells[c];
    bool above = false, below = false, in_front = true;
    for (const int node : cell) {
      const Placed p = plane.place(mesh.nodes[node], 0);
      (p.off >= 0 ? above : below) = true;
      in_front = in_front && p.rz[0] > 0;
    }
    if (above && below && in_front) cut_cell(cut, plane, mesh, cell, nodal_values, divisions);
    cut.cells.resize(cut.triangles.size(), static_cast<int>(c));
  }
  cut_skin(cut, plane, skin);
  return cut;
}

}  // namespace felloe
