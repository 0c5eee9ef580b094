// SPDX-License-Identifier: GPL-3.0-or-later
// Proves the structural hot-spot stress at weld toes on known profiles.
#include "post/weld_extrapolation.h"

#include <gtest/gtest.h>

#include <cmath>

#include "mesher/error.h"

namespace felloe {
namespace {

constexpr double thickness = 10;

double hot_spot(const char *rule, const std::function<double(double)> &profile) {
  return hot_spot_stress(toe_read_out(rule), thickness, profile);
}

double linear(double x) { return 120 - 2 * x; }
double parabolic(double x) { return 130 - 3 * x + 0.05 * x * x; }
double with_notch(double x) { return 100 * (1 + 0.8 * std::exp(-x / 1.5)) - 2 * x; }

// Read-out points after the IIW recommendations (from memory), values worked out by hand, t = 10.
TEST(HotSpotStress, LinearProfileIsExactForEveryRule) {
  for (const auto &rule : toe_read_outs())
    EXPECT_NEAR(hot_spot_stress(rule, thickness, linear), 120, 1e-9) << rule.name;
}

TEST(HotSpotStress, ParabolicProfile) {
  EXPECT_NEAR(hot_spot("linear", parabolic), 128, 1e-6);
  EXPECT_NEAR(hot_spot("quadratic", parabolic), 130, 1e-6);
  EXPECT_NEAR(hot_spot("coarse", parabolic), 126.25, 1e-6);
  EXPECT_NEAR(hot_spot("edge fine", parabolic), 130, 1e-6);
  EXPECT_NEAR(hot_spot("edge coarse", parabolic), 126.25, 1e-6);
}

TEST(HotSpotStress, NotchPeakIsMostlyLeftOut) {
  EXPECT_NEAR(hot_spot("linear", with_notch), 109.196586, 1e-6);
  EXPECT_NEAR(hot_spot("quadratic", with_notch), 113.568765, 1e-6);
  EXPECT_NEAR(hot_spot("coarse", with_notch), 104.279063, 1e-6);
  EXPECT_NEAR(hot_spot("edge fine", with_notch), 115.544157, 1e-6);
  EXPECT_NEAR(hot_spot("edge coarse", with_notch), 104.279063, 1e-6);
}

// The guideline prints 1.67 and -0.67 (from memory); exact are 5/3 and -2/3.
TEST(ToeWeights, AreTheExactLagrangeWeights) {
  const auto w = toe_weights({0.4, 1.0});
  EXPECT_NEAR(w[0], 5.0 / 3, 1e-12);
  EXPECT_NEAR(w[1], -2.0 / 3, 1e-12);
  const auto q = toe_weights({0.4, 0.9, 1.4});
  EXPECT_NEAR(q[0], 2.52, 1e-12);
  EXPECT_NEAR(q[1], -2.24, 1e-12);
  EXPECT_NEAR(q[2], 0.72, 1e-12);
  const auto rounded = 1.67 * parabolic(4) - 0.67 * parabolic(10);
  EXPECT_NEAR(rounded, 128.0460, 1e-6);
  EXPECT_NEAR(rounded, hot_spot("linear", parabolic), 1e-3 * rounded);
}

TEST(ToeWeights, RefuseEqualAndSingularDistances) {
  EXPECT_THROW(toe_weights({2, 2}), Error);
  EXPECT_THROW(toe_weights({0, 2}), Error);
}

TEST(ValueAtToe, TakesPairsAtAnyDistances) {
  EXPECT_NEAR(value_at_toe({{1.7, linear(1.7)}, {5.2, linear(5.2)}}), 120, 1e-9);
  EXPECT_NEAR(value_at_toe({{3, 77}}), 77, 1e-12);
}

// Membrane and bending over the thickness, IIW recommendations (from memory), on a profile of our
// own: s = 80 + 60 (1 - 2 y / 10) + 40 exp(-y / 0.5): membrane 80 + 2, bending 60 + 5.4
// (integrals).
TEST(LinearisedStress, MembraneAndBendingOverTheThickness) {
  const auto s = linearised(
      [](double y) { return 80 + 60 * (1 - 2 * y / 10) + 40 * std::exp(-y / 0.5); }, thickness);
  EXPECT_NEAR(s.membrane, 82.0, 1e-3);
  EXPECT_NEAR(s.bending, 65.4, 1e-3);
  EXPECT_NEAR(s.structural(), 147.4, 1e-3);
}

TEST(ToeReadOuts, UnknownRuleIsNamed) { EXPECT_THROW(toe_read_out("cubic"), Error); }

}  // namespace
}  // namespace felloe
