// SPDX-License-Identifier: GPL-3.0-or-later
// Proves every row of the table of mean-stress rules, and what must hold for any of them.
#include "post/mean_stress.h"

#include <gtest/gtest.h>

#include <cctype>
#include <cmath>

#include "mesher/error.h"
#include "mesher/vec3.h"

namespace felloe {
namespace {

/// f, t, M, Rm, Re, sf', g
FatigueConstants constants(double tensile, double yield, double coefficient, double walker) {
  return {0, 0, 0.1, tensile, yield, coefficient, walker};
}

double by(const char *rule, double amplitude, double mean, const FatigueConstants &c) {
  return mean_stress_rule(rule).equivalent(amplitude, mean, c);
}

// Amplitude 120, mean 80, Rm 600, Re 400, sf' 1000, g 0.65: formulas of Dowling and Shigley (from
// memory), worked out by hand.
TEST(MeanStressRules, TextbookFormulas) {
  const auto c = constants(600, 400, 1000, 0.65);
  EXPECT_NEAR(by("Goodman", 120, 80, c), 138.46154, 1e-5);
  EXPECT_NEAR(by("Gerber", 120, 80, c), 122.17195, 1e-5);
  EXPECT_NEAR(by("Soderberg", 120, 80, c), 150.0, 1e-5);
  EXPECT_NEAR(by("Morrow", 120, 80, c), 130.43478, 1e-5);
  EXPECT_NEAR(by("SWT", 120, 80, c), 154.91933, 1e-5);
  EXPECT_NEAR(by("Walker", 120, 80, c), 143.49220, 1e-5);
}

// Steel 4340 (constants from memory of Dowling): sf' 1758 MPa, b -0.0977; amplitude 450, mean 150;
// N = 0.5 (sar / sf')^(1 / b).
TEST(MeanStressRules, LivesOfAHardSteel) {
  const auto c = constants(1172, 1103, 1758, 0.65);
  const struct {
    const char *rule;
    double equivalent, life;
  } rows[] = {
      {"SWT", 519.6152, 130904}, {"Morrow", 491.9776, 229038}, {"Walker", 497.6696, 203598}};
  for (const auto &row : rows) {
    const double s = by(row.rule, 450, 150, c);
    EXPECT_NEAR(s / row.equivalent, 1, 1e-6) << row.rule;
    EXPECT_NEAR(0.5 * std::pow(s / 1758, -1 / 0.0977) / row.life, 1, 1e-4) << row.rule;
  }
}

// Turn 50 + 120 cos - 90 sin: amplitude 150, largest 200, M 0.103: 155.15 and root(200 150).
TEST(MeanStressRules, SuperposedTurn) {
  FatigueConstants c;
  c.mean_stress_sensitivity = 0.103;
  EXPECT_NEAR(by("FKM", 150, 50, c), 155.15, 1e-9);
  EXPECT_NEAR(by("SWT", 150, 50, c), 173.205, 1e-3);
}

// Stepped bar of a design course (Bhandari, example 5.12, in a public collection of worked
// examples): Rm 600, force -50 to 150 N at 100 mm, Kt 1.44, q 0.9, surface 4.51 Rm^-0.265, size
// 0.85, reliability 0.897, factor of safety 2, modified Goodman: 11.867951 mm.
TEST(MeanStressRules, TextbookShaft) {
  const double rm = 600, surface = 4.51 * std::pow(rm, -0.265);
  const double notch = 1 + 0.9 * (1.44 - 1);
  const double endurance = surface * 0.85 * 0.897 / notch * 0.5 * rm;
  EXPECT_NEAR(surface, 0.82788, 1e-5);
  EXPECT_NEAR(endurance, 135.648, 1e-3);
  const double diameter = 11.867951, modulus = pi / 32 * std::pow(diameter, 3);
  // both parts grow with the factor of safety
  const double amplitude = 2 * 10000 / modulus, mean = 2 * 5000 / modulus;
  EXPECT_NEAR(by("Goodman", amplitude, mean, constants(rm, 0, 0, 0)) / endurance, 1, 1e-6);
}

class EveryMeanStressRule : public testing::TestWithParam<int> {
 protected:
  const MeanStressRule &row() const { return mean_stress_rules()[GetParam()]; }
  double of(double amplitude, double mean, double scale = 1) const {
    FatigueConstants c = constants(580 * scale, 330 * scale, 870 * scale, 0.766);
    c.mean_stress = &row();
    return fully_reversed_amplitude(scale * amplitude, scale * mean, c);
  }
};

TEST_P(EveryMeanStressRule, LeavesTheFullyReversedBarAlone) { EXPECT_NEAR(of(123, 0), 123, 1e-12); }
TEST_P(EveryMeanStressRule, NoAmplitudeDoesNoHarm) { EXPECT_EQ(of(0, 300), 0); }
TEST_P(EveryMeanStressRule, ReadsTheSameInAnyUnit) {
  for (double mean : {-300.0, -40.0, 30.0, 150.0, 500.0})
    EXPECT_NEAR(of(100, mean, 3), 3 * of(100, mean), 1e-9);
}
TEST_P(EveryMeanStressRule, NeverFallsWithTheMeanAndStaysANumber) {
  for (double mean = -400; mean < 900; mean += 10) {
    EXPECT_LE(of(100, mean), of(100, mean + 10) * (1 + 1e-12)) << mean;
    EXPECT_LE(of(100, mean), of(110, mean) * (1 + 1e-12)) << mean;
    EXPECT_TRUE(std::isfinite(of(100, mean)));
  }
}
TEST_P(EveryMeanStressRule, TensionHarms) { EXPECT_GT(of(100, 80), 100); }
TEST_P(EveryMeanStressRule, SaysWhereItComesFrom) {
  EXPECT_FALSE(row().summary.empty());
  EXPECT_FALSE(row().source.empty());
  EXPECT_FALSE(row().confidence.empty());
}

INSTANTIATE_TEST_SUITE_P(Table, EveryMeanStressRule,
                         testing::Range(0, static_cast<int>(mean_stress_rules().size())),
                         [](const auto &info) { return mean_stress_rules()[info.param].name; });

TEST(MeanStressRules, AMissingConstantIsNamed) {
  EXPECT_THROW(by("Goodman", 100, 50, {}), Error);
  EXPECT_THROW(by("Walker", 100, 50, {}), Error);
  EXPECT_THROW(mean_stress_rule("Godman"), Error);
}

// FKM: 0.45 Rm, 0.577 of it, M = 0.35e-3 Rm - 0.1; uniform material law: 1.5 Rm; Dowling, Calhoun
// and Arcari (from memory): 0.8818 - 2e-4 Rm.
TEST(FatigueConstantsOfSteel, ComeFromTheTensileStrength) {
  const auto c = fatigue_constants(material("DP600"));
  EXPECT_NEAR(c.limit_bending, 261, 1e-9);
  EXPECT_NEAR(c.limit_torsion, 0.577 * 261, 1e-9);
  EXPECT_NEAR(c.mean_stress_sensitivity, 0.103, 1e-12);
  EXPECT_NEAR(c.strength_coefficient, 870, 1e-9);
  EXPECT_NEAR(c.walker_exponent, 0.7658, 1e-9);
  EXPECT_EQ(c.tensile_strength, 580);
  EXPECT_EQ(c.yield_strength, 330);
}

}  // namespace
}  // namespace felloe
