// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that ring walls lie on the punched cylinder or the seat cone, and that rings enclose them.
#include "mesher/hole_ring.h"

#include <gtest/gtest.h>

#include "tests/mesh/chart_layouts.h"

using namespace felloe;

namespace {

/// Distance of a sheet point from the hole's axis [mm].
double axis_distance(const Sheet &disc, const Hole &hole, const std::array<double, 2> &p,
                     double eta) {
  const Vec3 d =
      subtract(disc.position(disc.s_at(p[0]), p[1], eta), disc.position(hole.s, hole.theta, 0));
  const Vec3 n = disc.normal(hole.s, hole.theta);
  return norm(subtract(d, scale(dot(d, n), n)));
}

}  // namespace

TEST(HoleRing, WallLiesOnThePunchedCylinder) {
  const WheelLayout l = pressed_disc();
  for (const Hole &hole : {l.bolts[2], l.vents[3]})
    for (const double eta : {-1.0, 0.0, 0.3, 1.0})
      for (int i = 0; i < 12; ++i)
        EXPECT_NEAR(axis_distance(l.disc, hole, wall_point(l.disc, hole, i * pi / 6, eta), eta),
                    hole.radius, 1e-11);
}

TEST(HoleRing, WallFollowsTheSeatCone) {
  WheelLayout l = pressed_disc();
  Hole hole = l.bolts[1];
  hole.cone_eta = 0.2;
  hole.cone_radius = 11;
  // halfway up the cone the radius is the mean of 7 and 11
  EXPECT_NEAR(axis_distance(l.disc, hole, wall_point(l.disc, hole, 1, 0.6), 0.6), 9, 1e-11);
  EXPECT_NEAR(axis_distance(l.disc, hole, wall_point(l.disc, hole, 1, 1), 1), 11, 1e-11);
  const HoleRing ring = hole_ring(l.disc, hole, 16, 0.01);
  for (int m = 0; m < 16; ++m) {
    const auto wall = wall_point(l.disc, hole, ring.phi[m], 1);
    const double gap =
        std::hypot(ring.border[m][0] - ring.centre_sigma, ring.border[m][1] - ring.centre_theta) -
        std::hypot(wall[0] - ring.centre_sigma, wall[1] - ring.centre_theta);
    EXPECT_NEAR(gap, 0.01, 1e-12);
  }
}

TEST(HoleRing, CopiesAreTurnedExactly) {
  const WheelLayout l = pressed_disc();
  for (int i = 0; i < 8; ++i) {
    const auto a = wall_point(l.disc, l.vents[0], 0.7 * i, 1);
    const auto b = wall_point(l.disc, l.vents[4], 0.7 * i, 1);
    EXPECT_EQ(a[0], b[0]);
    EXPECT_NEAR(b[1] - a[1], l.vents[4].theta - l.vents[0].theta, 1e-15);
  }
}

TEST(HoleRing, PointsBlendFromWallToBorder) {
  const WheelLayout l = pressed_disc();
  const Hole &hole = l.vents[0];
  const HoleRing ring = hole_ring(l.disc, hole, 16, 0.03);
  const auto wall = wall_point(l.disc, hole, 2 * pi * 15.5 / 16, 0.5);
  const auto at_wall = ring_point(l.disc, hole, ring, 15, 0.5, 0, 0.5);
  EXPECT_NEAR(at_wall[0], wall[0], 1e-14);
  EXPECT_NEAR(at_wall[1], wall[1], 1e-14);
  const auto at_border = ring_point(l.disc, hole, ring, 15, 0.5, 1, 0.5);
  for (int d = 0; d < 2; ++d) {
    EXPECT_NEAR(at_border[d], 0.5 * (ring.border[15][d] + ring.border[0][d]), 1e-14);
    EXPECT_NEAR(ring_point(l.disc, hole, ring, 15, 0.5, 0.25, 0.5)[d],
                0.75 * at_wall[d] + 0.25 * at_border[d], 1e-14);
  }
}

TEST(HoleRing, LayersGrowFromTheWall) {
  const auto xi = ring_layer_borders(3, 0.25);
  EXPECT_EQ(xi.front(), 0);
  EXPECT_EQ(xi.back(), 1);
  EXPECT_NEAR(xi[1], 0.25, 1e-12);
  // equal ratios: (xi2 - xi1) / xi1 = (1 - xi2) / (xi2 - xi1)
  EXPECT_NEAR((xi[2] - xi[1]) / xi[1], (1 - xi[2]) / (xi[2] - xi[1]), 1e-12);
  EXPECT_NEAR(ring_layer_borders(4, 0.5)[1], 0.25, 1e-12);  // no room: equal layers
}
