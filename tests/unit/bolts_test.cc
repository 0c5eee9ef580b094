// SPDX-License-Identifier: GPL-3.0-or-later
// Proves the bolt formulas against VDI 2230 (from memory) and a published table of fine threads.
#include <gtest/gtest.h>

#include "mesher/error.h"
#include "solver/load_kinds.h"

namespace felloe {
namespace {

const BoltThread m14{14, 1.5}, m12{12, 1.5};

// ISO metric thread: d2 = d - 0.6495 P, d3 = d - 1.2269 P, A_s = pi ((d2 + d3) / 2)^2 / 4.
TEST(BoltThread, GeometryFollowsIsoMetricThread) {
  EXPECT_NEAR(m14.pitch_diameter(), 13.0257, 5e-5);
  EXPECT_NEAR(m14.minor_diameter(), 12.1597, 5e-5);
  EXPECT_NEAR(m14.stress_area(), 124.55, 5e-3);
  EXPECT_NEAR(m12.pitch_diameter(), 11.0257, 5e-5);
  EXPECT_NEAR(m12.minor_diameter(), 10.1597, 5e-5);
  EXPECT_NEAR(m12.stress_area(), 88.13, 5e-3);
}

// VDI 2230 (from memory). The table of fine threads, 90 % of yield, friction 0.12: M14 x 1.5 grade
// 10.9 95.2 kN, grade 8.8 64.8 kN (public reproduction of the table). Yield 940 and 640 MPa.
TEST(BoltPreload, AtYieldAgreesWithFormulaAndTable) {
  EXPECT_NEAR(bolt_preload_at_yield(m14, 940, 0.12), 95320, 10);
  EXPECT_NEAR(bolt_preload_at_yield(m14, 940, 0.12), 95200, 0.0025 * 95200);
  EXPECT_NEAR(bolt_preload_at_yield(m14, 640, 0.12), 64900, 10);
  EXPECT_NEAR(bolt_preload_at_yield(m14, 640, 0.12), 64800, 0.0025 * 64800);
  EXPECT_NEAR(bolt_preload_at_yield(m12, 640, 0.12), 45550, 10);
  EXPECT_NEAR(bolt_preload_at_yield(m12, 940, 0.12), 66900, 20);
}

// Same table: 209 N m and 142 N m for a flat head with mean friction diameter 17.57 mm.
TEST(BoltTorque, FlatSeatAgreesWithTable) {
  EXPECT_NEAR(bolt_torque(95200, m14, 0.12, 0.12, 17.57, 180), 209.5e3, 100);
  EXPECT_NEAR(bolt_torque(64800, m14, 0.12, 0.12, 17.57, 0), 142.6e3, 100);
}

// The cone term mu / sin(half angle) doubles the head friction of a 60 degree seat (derived).
TEST(BoltPreload, ConeSeatFollowsTheWedge) {
  const double friction[] = {0.10, 0.14, 0.20};
  const double m12_kn[] = {42.6, 31.3, 22.4}, m14_kn[] = {40.1, 29.3, 20.9};
  for (int i = 0; i < 3; ++i) {
    EXPECT_NEAR(bolt_preload(110e3, m12, friction[i], friction[i], 17, 60), 1000 * m12_kn[i], 50);
    EXPECT_NEAR(bolt_preload(120e3, m14, friction[i], friction[i], 20, 60), 1000 * m14_kn[i], 50);
  }
}

TEST(BoltPreload, TorqueOfPreloadIsTheInverse) {
  const double preload = bolt_preload(110e3, m12, 0.12, 0.15, 17, 60);
  EXPECT_NEAR(bolt_torque(preload, m12, 0.12, 0.15, 17, 60), 110e3, 1e-9 * 110e3);
}

// Linear force distribution over a bolt circle: 4 M / (n PCD), M = 2373.84 N m.
TEST(BoltForce, FromMomentFollowsTheBoltCircle) {
  EXPECT_NEAR(bolt_force_from_moment(2373.84e3, 5, 112), 16956, 1);
  EXPECT_NEAR(bolt_force_from_moment(2373.84e3, 4, 108), 21980, 1);
  EXPECT_THROW(bolt_force_from_moment(1, 2, 100), Error);
}

TEST(BoltPreload, WithoutAnyResistanceIsAnError) {
  EXPECT_THROW(bolt_preload(110e3, BoltThread{12, 0}, 0, 0, 17, 60), Error);
}

TEST(LoadKinds, RowsHaveUniqueNamesSourcesAndStandardValuesInRange) {
  const auto &rows = load_kinds();
  ASSERT_GE(rows.size(), 5u);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    for (std::size_t k = 0; k < i; ++k) EXPECT_NE(rows[i].name, rows[k].name);
    EXPECT_FALSE(rows[i].source.empty()) << rows[i].name;
    EXPECT_FALSE(rows[i].confidence.empty()) << rows[i].name;
    EXPECT_FALSE(rows[i].parameters.empty()) << rows[i].name;
    for (const Parameter &p : rows[i].parameters) {
      EXPECT_LT(p.smallest, p.largest) << p.key;
      EXPECT_GE(p.standard, p.smallest) << p.key;
      EXPECT_LE(p.standard, p.largest) << p.key;
    }
  }
}

}  // namespace
}  // namespace felloe
