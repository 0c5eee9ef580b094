// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that faces are ordered outwards, names are looked up with advice, and quality measures are
// those of elementary cells.
#include "mesher/mesh.h"

#include <gtest/gtest.h>

#include "mesher/error.h"
#include "tests/support/mesh_checks.h"

namespace felloe {
namespace {

/// One cell, a parallelepiped with the given edges.
Mesh one_cell(const Vec3 &a, const Vec3 &b, const Vec3 &c) {
  Mesh m;
  m.cells.emplace_back();
  for (int n = 0; n < 27; ++n) {
    m.nodes.push_back(
        add(add(scale(0.5 * (n % 3), a), scale(0.5 * (n / 3 % 3), b)), scale(0.5 * (n / 9), c)));
    m.cells[0][n] = n;
  }
  m.parts = {Part::disc};
  m.surfaces["top"] = {{0, 5}};
  m.lines["rim"] = {0, 1, 2};
  return m;
}

TEST(FaceNodes, NormalsPointOutOfTheCell) {
  const Mesh m = one_cell({2, 0, 0}, {0, 3, 0}, {0, 0, 4});
  const Vec3 expected[6] = {{-12, 0, 0}, {12, 0, 0}, {0, -8, 0}, {0, 8, 0}, {0, 0, -6}, {0, 0, 6}};
  for (int f = 0; f < 6; ++f)
    EXPECT_LT(norm(subtract(area_vector(m, {0, f}), expected[f])), 1e-12) << f;
}

TEST(FaceNodes, AreThoseOfTheFace) {
  const Mesh m = one_cell({1, 0, 0}, {0, 1, 0}, {0, 0, 1});
  for (int f = 0; f < 6; ++f)
    for (const int k : face_nodes(m, {0, f})) EXPECT_EQ(m.nodes[k][f / 2], f % 2) << f;
}

TEST(EdgeNodes, NormalsPointOutOfTheCell) {
  SectionMesh m;
  m.cells.emplace_back();
  for (int n = 0; n < 9; ++n) {
    m.nodes.push_back({0.5 * (n % 3), 0.5 * (n / 3)});
    m.cells[0][n] = n;
  }
  const Vec2 expected[4] = {{-1, 0}, {1, 0}, {0, -1}, {0, 1}};
  for (int f = 0; f < 4; ++f) {
    const auto e = edge_nodes(m, {0, f});
    const Vec2 a = m.nodes[e[0]], b = m.nodes[e[2]];
    EXPECT_NEAR(b[1] - a[1], expected[f][0], 1e-15);  // turned by -90 degrees
    EXPECT_NEAR(a[0] - b[0], expected[f][1], 1e-15);
    EXPECT_NEAR(m.nodes[e[1]][0], 0.5 * (a[0] + b[0]), 1e-15);
  }
}

TEST(MeshNames, UnknownOnesListThoseThatExist) {
  const Mesh m = one_cell({1, 0, 0}, {0, 1, 0}, {0, 0, 1});
  EXPECT_EQ(surface(m, "top").size(), 1u);
  EXPECT_EQ(surface_nodes(m, "top").size(), 9u);
  EXPECT_EQ(line(m, "rim").size(), 3u);
  try {
    surface(m, "topp");
    FAIL() << "accepted";
  } catch (const Error &e) {
    EXPECT_NE(std::string(e.what()).find("there are: top"), std::string::npos) << e.what();
  }
  EXPECT_THROW(line(m, "top"), Error);
}

TEST(MeshQuality, OfElementaryCells) {
  // a box: three right angles; volume is the product of the edges
  MeshQuality q = mesh_quality(one_cell({2, 0, 0}, {0, 3, 0}, {0, 0, 4}));
  EXPECT_NEAR(q.min_scaled_jacobian, 1, 1e-14);
  EXPECT_NEAR(q.volume, 24, 1e-12);
  EXPECT_NEAR(q.min_jacobian_at_gauss_points, 24, 1e-12);
  // sheared by 45 degrees in one plane: determinant of unit edges sin 45 degrees
  q = mesh_quality(one_cell({1, 0, 0}, {1, 1, 0}, {0, 0, 1}));
  EXPECT_NEAR(q.min_scaled_jacobian, std::sqrt(0.5), 1e-14);
  EXPECT_NEAR(q.volume, 1, 1e-13);
  // left-handed: inside out
  q = mesh_quality(one_cell({0, 1, 0}, {1, 0, 0}, {0, 0, 1}));
  EXPECT_NEAR(q.min_scaled_jacobian, -1, 1e-14);
  EXPECT_NEAR(q.volume, -1, 1e-13);
}

TEST(MeshQuality, RefinementSubdividesTheExactMap) {
  // quarter of a tube, r 1 to 2, height 1: pi / 4 (4 - 1). One quadratic cell errs, children less
  Mesh m = one_cell({1, 0, 0}, {0, 1, 0}, {0, 0, 1});
  m.position = [](int, const Vec3 &u) {
    return Vec3{(1 + u[0]) * std::cos(0.5 * pi * u[1]), (1 + u[0]) * std::sin(0.5 * pi * u[1]),
                u[2]};
  };
  for (int n = 0; n < 27; ++n)
    m.nodes[n] = m.position(0, {0.5 * (n % 3), 0.5 * (n / 3 % 3), 0.5 * (n / 9)});
  const double exact = 0.75 * pi;
  double error[3];
  for (int k = 0; k < 3; ++k) error[k] = std::abs(mesh_quality(m, k).volume - exact);
  // parabola for arc: fourth order in the angle
  EXPECT_NEAR(std::log2(error[0] / error[1]), 4, 0.2);
  EXPECT_NEAR(std::log2(error[1] / error[2]), 4, 0.1);
}

}  // namespace
}  // namespace felloe
