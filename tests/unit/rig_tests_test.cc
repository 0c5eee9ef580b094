// SPDX-License-Identifier: GPL-3.0-or-later
// Proves the load formulas of the rig tests and that no row lacks its source.
#include "post/rig_tests.h"

#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "mesher/error.h"
#include "post/rig_measurements.h"

namespace felloe {
namespace {

// Worked out by hand from M = W g (mu R + d) S: 615 kg, R 290 mm, r_dyn 308.5 mm, inset 43 mm.
RatedLoad car() { return {615, 290, 308.5, 43}; }

double moment_Nm(const char *test, const RatedLoad &load) {
  return 1e-3 * bending_moment(rig_test(test), load);
}

TEST(BendingMoment, J328FactorsOnTheStaticRadius) {
  EXPECT_NEAR(moment_Nm("bending J328 front ferrous", car()), 2373.84, 5e-3);
  EXPECT_NEAR(moment_Nm("bending J328 rear ferrous", car()), 2151.29, 5e-3);
  EXPECT_NEAR(moment_Nm("bending J328 front cast or forged aluminium", car()), 2967.30, 5e-3);
}

TEST(BendingMoment, R124LevelsOnTheRollingRadius) {
  EXPECT_NEAR(moment_Nm("bending R124 75 %", car()), 2900.80, 5e-3);
  EXPECT_NEAR(moment_Nm("bending R124 50 %", car()), 1933.87, 5e-3);
  RigTest full = rig_test("bending R124 75 %");
  full.load_share = 1;
  EXPECT_NEAR(1e-3 * bending_moment(full, car()), 3867.74, 5e-3);
  RatedLoad outset = car();
  outset.inset = -20;  // outset lowers the moment
  EXPECT_NEAR(1e-3 * bending_moment(full, outset), 3107.82, 5e-3);
}

TEST(BendingMoment, ArmForce) {
  const double moment = bending_moment(rig_test("bending J328 front ferrous"), car());
  EXPECT_NEAR(arm_force(moment, 1000), 2373.8, 0.05);
  EXPECT_NEAR(arm_force(moment, 800), 2967.3, 0.05);
}

TEST(RadialForce, FactorsOnTheWheelLoad) {
  EXPECT_NEAR(radial_force(rig_test("radial R124 steel disc"), car()), 13569.95, 5e-3);
  EXPECT_NEAR(radial_force(rig_test("radial R124 light alloy"), car()), 15077.72, 5e-3);
}

// Distance / (2 pi 0.3085 m).
TEST(RequiredCycles, RollingDistanceBecomesTurns) {
  EXPECT_NEAR(required_cycles(rig_test("radial R124 steel disc"), car()), 515899, 0.5);
  EXPECT_NEAR(required_cycles(rig_test("radial R124 light alloy"), car()), 1031799, 1);
  EXPECT_EQ(required_cycles(rig_test("bending J328 front ferrous"), car()), 18000);
  EXPECT_THROW(required_cycles(rig_test("radial R124 trailer"), {615, 290, 0, 43}), Error);
}

// SAE J267 (2021), table of cycles by number of samples (second-hand, verify).
TEST(SampleSize, AllTwelveEntriesOfTheJ267Table) {
  const double table[2][6] = {{30000, 33000, 36000, 40000, 46000, 57000},
                              {18000, 20000, 22000, 24000, 28000, 34000}};
  for (const auto &row : table)
    for (int i = 0; i < 6; ++i) EXPECT_EQ(sample_size_cycles(row[0], 7 - i), row[i]) << 7 - i;
}

// SAE J175 (second-hand, verify): 0.6 W + 180 kg; free fall over 230 mm, 25 mm window in 12.31 ms,
// 1000 kg sags the support by 7.5 +- 0.75 mm.
TEST(ImpactRig, StrikerSpeedEnergyAndSupport) {
  EXPECT_NEAR(impact_striker_mass(615), 549, 1e-9);
  EXPECT_NEAR(impact_striker_mass(690), 594, 1e-9);
  EXPECT_NEAR(impact_striker_mass(500), 480, 1e-9);
  EXPECT_NEAR(impact_speed(230), 2.12393, 5e-6);
  EXPECT_NEAR(impact_energy(549, 230), 1238.29, 5e-3);
  EXPECT_NEAR(drop_height(25 / 12.31), 210.3, 0.05);
  EXPECT_NEAR(25 / 12.31, 2.0309, 5e-5);
  EXPECT_NEAR(support_stiffness(1000, 7.5), 1307.6, 0.05);
  EXPECT_NEAR(support_stiffness(1000, 8.25), 1188.7, 0.05);
  EXPECT_NEAR(support_stiffness(1000, 6.75), 1452.8, 0.05);
}

// k = ln(N2 / N1) / ln 1.5 between the two levels of UN R124.
TEST(TestLevels, SlopeBetweenTheLevelsOfR124) {
  const auto slope = [](const char *high, const char *low) {
    const auto &a = rig_test(high), &b = rig_test(low);
    return slope_between(a.load_share, a.cycles, b.load_share, b.cycles);
  };
  EXPECT_NEAR(slope("bending R124 75 %", "bending R124 50 %"), 5.679, 5e-4);
  EXPECT_NEAR(slope("bending R124 75 % light alloy", "bending R124 50 % light alloy"), 5.419, 5e-4);
}

// Arm deflection 1.30 to 1.36 mm, from an accredited laboratory's record.
TEST(TestRecord, DeflectionGrowth) { EXPECT_NEAR(deflection_growth(1.30, 1.36), 4.615, 5e-4); }

TEST(RigTests, EveryRowIsCompleteAndSaysHowSureItIs) {
  std::set<std::string> names;
  for (const auto &t : rig_tests()) {
    SCOPED_TRACE(t.name);
    EXPECT_TRUE(names.insert(t.name).second);
    EXPECT_FALSE(t.summary.empty());
    EXPECT_FALSE(t.source.empty());
    EXPECT_FALSE(t.confidence.empty());
    EXPECT_EQ(t.confidence.find("not confirmed"), std::string::npos);
    EXPECT_GT(t.load_factor, 0);
    EXPECT_GT(required_cycles(t, car()), 0);
    EXPECT_EQ(t.friction > 0, t.kind == RigTestKind::rotating_bending);
  }
}

TEST(RigTests, UnknownNameNamesTheNearest) {
  try {
    rig_test("bending J328 frnt ferrous");
    FAIL() << "no error";
  } catch (const Error &e) {
    EXPECT_NE(std::string(e.what()).find("did you mean 'bending J328 front ferrous'"),
              std::string::npos)
        << e.what();
  }
}

// SAE J267 table, 1.45: 30,000 cycles for seven wheels, 40,000 for four (second-hand).
TEST(RigTests, FewerWheelsThanSevenRunLongerUnderJ267) {
  RigTest test = rig_test("bending J267 1.45");
  EXPECT_EQ(test.wheels, 7);
  EXPECT_EQ(required_cycles(test, car()), 30000);
  test.wheels = 4;
  EXPECT_EQ(required_cycles(test, car()), 40000);
  RigTest other = rig_test("bending J267 1.60");
  other.wheels = 2;
  EXPECT_EQ(required_cycles(other, car()), 34000);
}

// Independent wheels: probabilities multiply. The rule N ~ n^(-1/2) keeps it for Weibull lives of
// slope 2: exp(-n (N/T)^2) is the same for n = 7, N = 1 and n = 2, N = sqrt(7/2).
TEST(RigTests, AllWheelsPassWithTheProductOfTheirProbabilities) {
  EXPECT_NEAR(all_pass(0.9, 3), 0.729, 1e-15);
  EXPECT_EQ(all_pass(1, 7), 1);
  const double seven = all_pass(std::exp(-0.01), 7), two = all_pass(std::exp(-0.01 * 3.5), 2);
  EXPECT_NEAR(seven, two, 1e-15);
  EXPECT_EQ(failure_criterion(rig_test("bending J328 front ferrous")), "crack");
}

}  // namespace
}  // namespace felloe
