// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that the allowed stress of a design is where its life meets the required one.
#include <gtest/gtest.h>

#include <cmath>

#include "cli/sweep/test_figures.h"
#include "cli/test_turns.h"
#include "tests/study/demo_case.h"

namespace felloe {
namespace {

// The definition of the allowed stress: there, by the curve itself, the design life is the required
// one. Rounding of pow: 1e-9.
TEST(AllowedStress, GivesTheRequiredLifeOnEveryCurve) {
  const RatingRules rules = rating_rules(test::coarse_demo());
  for (const Surface surface : {Surface::parent, Surface::vent_edge, Surface::weld_toe})
    for (const double cycles : {1e4, 5e5}) {
      const SnCurve curve = curve_for(rules, surface, Part::disc);
      HotSpot spot;
      spot.fully_reversed = allowed_stress(curve, rules.survival, cycles);
      rate(spot, curve, rules.survival, cycles);
      EXPECT_NEAR(spot.life_design / cycles, 1, 1e-9) << curve.name;
      spot.fully_reversed *= 0.999;
      rate(spot, curve, rules.survival, cycles);
      EXPECT_EQ(spot.verdict, Verdict::pass) << curve.name;
      spot.fully_reversed *= 1.01;
      rate(spot, curve, rules.survival, cycles);
      EXPECT_EQ(spot.verdict, Verdict::fail) << curve.name;
    }
}

// Beyond the knee of a steel curve lives have no end: the knee is what is allowed.
TEST(AllowedStress, IsTheKneeWhereLivesHaveNoEnd) {
  const RatingRules rules = rating_rules(test::coarse_demo());
  const SnCurve curve = curve_for(rules, Surface::parent, Part::disc);
  EXPECT_DOUBLE_EQ(allowed_stress(curve, rules.survival, 1e8),
                   allowed_stress(curve, rules.survival, curve.knee_cycles));
}

TEST(Verdict, OfADesignIsThatOfItsWorstTest) {
  TestFigures pass, fail, none;
  pass.verdict = Verdict::pass;
  fail.verdict = Verdict::fail;
  EXPECT_EQ(verdict_of({}), Verdict::not_rated);
  EXPECT_EQ(verdict_of({pass, pass}), Verdict::pass);
  EXPECT_EQ(verdict_of({pass, none}), Verdict::not_rated);
  EXPECT_EQ(verdict_of({none, pass, fail}), Verdict::fail);
}

}  // namespace
}  // namespace felloe
