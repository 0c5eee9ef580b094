// SPDX-License-Identifier: GPL-3.0-or-later
// The colours of the pictures say what the table of hot spots says.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "cli/test_turns.h"
#include "tests/cases/demo_run.h"

namespace felloe {
namespace {

using test::demo;
using test::run;

int node_at(const Vec3 &x) {
  const auto &nodes = run().mesh.nodes;
  for (std::size_t n = 0; n < nodes.size(); ++n)
    if (norm(subtract(nodes[n], x)) < 1e-6) return static_cast<int>(n);
  return -1;
}

bool at_toe(const HotSpot &spot) { return spot.feature.rfind("weld toe", 0) == 0; }

TEST(Utilisation, IsThatOfTheHotSpotWhereThereIsOne) {
  int compared = 0;
  for (const TestFields &f : run().fields)
    for (const HotSpot &spot : run().results.hot_spots) {
      if (spot.test != f.test || at_toe(spot)) continue;
      const int node = node_at(spot.position);
      ASSERT_GE(node, 0) << spot.feature;
      EXPECT_NEAR(f.utilisation[node], 100 * utilisation(spot), 1e-9 * f.utilisation[node])
          << spot.feature << " in " << spot.test;
      if (std::isinf(spot.life_design))
        EXPECT_TRUE(std::isinf(f.nodes.life[node])) << spot.feature;
      else
        EXPECT_NEAR(f.nodes.life[node], spot.life_design, 1e-9 * spot.life_design)
            << spot.feature << " in " << spot.test;
      ++compared;
    }
  EXPECT_GE(compared, 16);
}

TEST(Utilisation, RepeatsInEverySector) {
  const Mesh &mesh = run().mesh;
  ASSERT_FALSE(mesh.turned.empty());
  for (const TestFields &f : run().fields)
    for (std::size_t n = 0; n < mesh.nodes.size(); ++n)
      ASSERT_EQ(f.utilisation[n], f.utilisation[mesh.turned[n]]) << "node " << n;
}

// The curve of a sheared edge is that of the face, all amplitudes times the edge's factor.
TEST(Utilisation, ShearedEdgesAreAllowedLess) {
  const TestFields &f = run().fields.front();
  const RatingRules rules = rating_rules(demo());
  const double allowed = allowed_stress(curve_for(rules, Surface::parent, Part::disc),
                                        rules.survival, run().results.tests[0].required_cycles);
  ASSERT_EQ(run().results.tests[0].name, f.test);
  int seen = 0;
  for (const RatedPlace &place : run().places.at(f.held)) {
    if (place.surface != Surface::vent_edge) continue;
    for (const int n : place.nodes) {
      const double as_face = 100 * f.nodes.fully_reversed[n] / allowed;
      EXPECT_NEAR(f.utilisation[n] * standard_sheared_edge_factor, as_face, 1e-9 * as_face);
      ++seen;
    }
  }
  EXPECT_GT(seen, 0);
}

TEST(Utilisation, RunsAlongTheWeldToesAllRoundTheWheel) {
  for (const TestFields &f : run().fields) {
    ASSERT_EQ(f.toes.size(), 2u);
    for (const ValueLine &line : f.toes) {
      EXPECT_EQ(line.points.front(), line.points.back());
      double round = 0;  // signed angle from point to point
      for (std::size_t i = 0; i + 1 < line.points.size(); ++i) {
        const Vec3 &a = line.points[i], &b = line.points[i + 1];
        const double step =
            std::atan2(a[0] * b[1] - a[1] * b[0], a[0] * b[0] + a[1] * b[1]) * 180 / pi;
        EXPECT_GE(step, -1e-5);  // angles of toe points are multiples of 1e-7 rad
        EXPECT_LT(step, 10);
        round += step;
      }
      EXPECT_NEAR(round, 360, 1e-6);
    }
    for (const HotSpot &spot : run().results.hot_spots) {
      if (spot.test != f.test || !at_toe(spot)) continue;
      const ValueLine &line =
          std::abs(f.toes[0].points[0][2] - spot.z) < 1e-6 ? f.toes[0] : f.toes[1];
      EXPECT_NEAR(*std::max_element(line.values.begin(), line.values.end()),
                  100 * utilisation(spot), 1e-9 * 100);
    }
  }
}

}  // namespace
}  // namespace felloe
