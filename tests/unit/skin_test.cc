// SPDX-License-Identifier: GPL-3.0-or-later
// The skin is the whole surface of the body, turned outwards, and hides what lies behind it.
#include "post/skin.h"

#include <gtest/gtest.h>

#include "tests/support/simple_wheel.h"

namespace felloe {
namespace {

constexpr double fold = 35 * pi / 180;

double area(const Skin &skin) {
  double sum = 0;
  for (const auto &t : skin.triangles)
    sum += norm(cross(subtract(skin.points[t[1]], skin.points[t[0]]),
                      subtract(skin.points[t[2]], skin.points[t[0]]))) /
           2;
  return sum;
}

/// Enclosed volume by the divergence theorem: positive when the triangles face outwards.
double volume(const Skin &skin) {
  double sum = 0;
  for (const auto &t : skin.triangles)
    sum += dot(skin.points[t[0]], cross(skin.points[t[1]], skin.points[t[2]])) / 6;
  return sum;
}

// Ring r 40 ... 60, z 0 ... 5: area 2 pi (60^2 - 40^2) + 2 pi (40 + 60) 5, volume pi (60^2 -
// 40^2) 5. 24 quadratic arcs in 4 chords each miss the circle by 1 - cos(pi / 96) = 5e-4 of the
// radius; area and volume by twice that at most.
TEST(Skin, HasAreaAndVolumeOfTheBody) {
  const Mesh ring = test::ring(24);
  const Skin s = skin(ring, boundary_faces(ring), std::vector<double>(ring.nodes.size()), 4, fold);
  EXPECT_NEAR(area(s) / (2 * pi * (2000 + 500)), 1, 1.1e-3);
  EXPECT_NEAR(volume(s) / (pi * 2000 * 5), 1, 1.1e-3);
}

TEST(Skin, NormalsPointOutOfTheMaterial) {
  const Mesh ring = test::ring(24);
  const Skin s = skin(ring, boundary_faces(ring), std::vector<double>(ring.nodes.size()), 2, fold);
  const auto mid_circle = [](const Vec3 &x) {
    const double r = std::hypot(x[0], x[1]);
    return Vec3{50 * x[0] / r, 50 * x[1] / r, 2.5};
  };
  for (std::size_t i = 0; i < s.points.size(); ++i)
    ASSERT_GT(dot(s.normals[i], subtract(s.points[i], mid_circle(s.points[i]))), 0);
}

TEST(Skin, SharpEdgesAreTheFourCirclesOfTheRing) {
  const Mesh ring = test::ring(24);
  const Skin s = skin(ring, boundary_faces(ring), std::vector<double>(ring.nodes.size()), 2, fold);
  EXPECT_EQ(s.sharp_edges.size(), 4U * 24);
}

TEST(Skin, ValuesFollowTheQuadraticShapeFunctions) {
  const Mesh ring = test::ring(24);
  std::vector<double> values;
  for (const Vec3 &x : ring.nodes) values.push_back(x[2] * x[2] - 3 * x[0]);
  const Skin s = skin(ring, boundary_faces(ring), values, 4, fold);
  for (std::size_t i = 0; i < s.points.size(); ++i)
    ASSERT_NEAR(s.values[i], s.points[i][2] * s.points[i][2] - 3 * s.points[i][0], 1e-10);
}

TEST(Visible, TheTopIsSeenFromAboveOnly) {
  const Mesh ring = test::ring(24);
  const Skin s = skin(ring, boundary_faces(ring), std::vector<double>(ring.nodes.size()), 2, fold);
  EXPECT_TRUE(visible(s, {50, 1, 5}, {0, 0, 1}, 1));
  EXPECT_FALSE(visible(s, {50, 1, 5}, {0, 0, -1}, 1));
  EXPECT_TRUE(visible(s, {50, 1, 0}, {0, 0, -1}, 1));
  EXPECT_FALSE(visible(s, {40, 1, 2.5}, {1, 0, 0}, 1));   // the ring itself is in the way
  EXPECT_FALSE(visible(s, {-40, 1, 2.5}, {1, 0, 0}, 1));  // its far side is in the way
}

}  // namespace
}  // namespace felloe
