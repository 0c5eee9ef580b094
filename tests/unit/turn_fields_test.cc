// SPDX-License-Identifier: GPL-3.0-or-later
// The turn of a load at even angles, and rated places as fields.
#include "post/turn_fields.h"

#include <gtest/gtest.h>

#include <cmath>

#include "post/rated_nodes.h"
#include "tests/support/simple_wheel.h"

namespace felloe {
namespace {

/// A ring of four equal sectors; `turned` leads one sector on.
Mesh ring_of_sectors() {
  Mesh mesh = test::ring(12);
  mesh.symmetry = 4;
  const std::size_t n = mesh.nodes.size(), a_sector = n / 4;
  for (std::size_t i = 0; i < n; ++i) mesh.turned.push_back(int((i + a_sector) % n));
  return mesh;
}

Solution state_of(const Mesh &mesh, double factor) {
  Solution s;
  for (const Vec3 &x : mesh.nodes) {
    s.displacement.push_back(scale(factor, Vec3{x[0] + 1, 2 * x[1], x[2]}));
    s.stress.push_back({{factor * x[0], factor, factor * x[2], 0, factor * x[1], 1}});
  }
  return s;
}

TEST(TurnFields, OfAMomentAreItsHarmonicAtEvenAngles) {
  const Mesh mesh = ring_of_sectors();
  const Solution steady = state_of(mesh, 1), cosine = state_of(mesh, 2), sine = state_of(mesh, 3),
                 pressed = state_of(mesh, 10);
  const TurnHistory turn = bending_turn("bending", {&steady}, cosine, sine, 0.5, {&pressed});
  const TurnFields fields = turn_fields(turn, {5, 17}, 24);
  ASSERT_EQ(fields.steps.size(), 24U);
  for (int k = 0; k < 24; ++k) {
    const TurnStep &step = fields.steps[k];
    EXPECT_DOUBLE_EQ(step.angle_deg, 15 * k);
    // steady + half of (2 cos + 3 sin) times the common field; the press fit by its stress alone
    const double phi = 15 * k * pi / 180,
                 factor = 1 + 0.5 * (2 * std::cos(phi) + 3 * std::sin(phi));
    const Vec3 &x = mesh.nodes[17];
    EXPECT_NEAR(step.displacement[3 + 1], factor * 2 * x[1], 1e-4);
    EXPECT_NEAR(step.stress[6 + 0], (factor + 10) * x[0], 1e-3);
  }
}

TEST(TurnFields, OfARollingLoadAreTurnedSectors) {
  const Mesh mesh = ring_of_sectors();
  const Solution first = state_of(mesh, 1), second = state_of(mesh, 2);
  const TurnHistory turn = rolling_turn("rolling", mesh, {}, {&first, &second}, 1);
  const int node = 3;
  // Eight positions, every second one: those of `first`, a sector apart.
  const TurnFields fields = turn_fields(turn, {node}, 4);
  ASSERT_EQ(fields.steps.size(), 4U);
  int source = node;
  for (int k = 0; k < 4; ++k) {
    const TurnStep &step = fields.steps[k];
    EXPECT_DOUBLE_EQ(step.angle_deg, 90 * k);
    const Vec3 u = first.displacement[source];
    const double c = std::cos(k * pi / 2), s = std::sin(k * pi / 2);
    EXPECT_NEAR(step.displacement[0], c * u[0] - s * u[1], 1e-4);
    EXPECT_NEAR(step.displacement[1], s * u[0] + c * u[1], 1e-4);
    const Stress turned = turned_about_axis(first.stress[source], k * pi / 2);
    for (int i = 0; i < 6; ++i) EXPECT_NEAR(step.stress[i], turned[i], 1e-4);
    for (int back = 0; back < 3; ++back) source = mesh.turned[source];  // three on are one back
  }
  // The state between two of these: `second`, at 45 degrees.
  const std::vector<Vec3> moved = motion_at(turn, 10, 45);
  for (int i = 0; i < 3; ++i) EXPECT_NEAR(moved[node][i], second.displacement[node][i], 1e-12);
}

TEST(TurnFields, HaveNoDisplacementsWhereNoneWereKept) {
  const Mesh mesh = ring_of_sectors();
  Solution s = state_of(mesh, 1);
  s.displacement.clear();
  const TurnHistory turn = bending_turn("bending", {}, s, s, 1);
  EXPECT_TRUE(turn_fields(turn, {1}, 4).steps[0].displacement.empty());
  EXPECT_TRUE(motion_at(turn, 4, 0).empty());
}

TEST(RatedNodes, CoverAllSectorsAndNothingElseOfTheSurface) {
  const Mesh mesh = ring_of_sectors();
  RatedPlace place;
  place.feature = "edge";
  place.nodes = {0};
  int judged = 0, in_place = 0;
  const std::vector<bool> nodes = judged_nodes(mesh, {place});
  HotSpot spot;
  spot.feature = "edge";
  spot.test = "bending";
  spot.error_percent = 1.5;
  const std::vector<double> error = error_percent_of_nodes(mesh, {place}, {spot}, "bending");
  int node = 0;
  for (int k = 0; k < 4; ++k) {
    EXPECT_TRUE(nodes[node]);
    EXPECT_EQ(error[node], 1.5);
    node = mesh.turned[node];
  }
  for (std::size_t n = 0; n < mesh.nodes.size(); ++n) {
    judged += nodes[n];
    in_place += !std::isnan(error[n]);
  }
  EXPECT_EQ(in_place, 4);
  // Two cells along r, one along z: 3 of 15 nodes of a row lie inside the material, in 24 rows.
  EXPECT_EQ(judged, 4 + 3 * 24);
  const std::vector<double> none = error_percent_of_nodes(mesh, {place}, {spot}, "rolling");
  for (const double e : none) EXPECT_TRUE(std::isnan(e));
}

}  // namespace
}  // namespace felloe
