// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that a hot spot gets its lives and its verdict from its curve.
#include <gtest/gtest.h>

#include <cmath>

#include "post/rating.h"

namespace felloe {
namespace {

// 2 x knee amplitude on a slope of 5: 1e6 / 32 = 31250 cycles at the curve's 97.5 %.
TEST(Rate, ParentMetalTakesTheAmplitude) {
  const SnCurve c = parent_metal_curve(material("DP600"), 1);
  HotSpot spot;
  spot.fully_reversed = 2 * 261;
  rate(spot, c, 0.975, 18000);
  EXPECT_NEAR(spot.life_design, 31250, 1e-3);
  EXPECT_NEAR(spot.life_p50, 31250 * std::pow(10, 0.2 * 1.959964), 1);
  EXPECT_EQ(spot.verdict, Verdict::pass);
  EXPECT_EQ(spot.required_cycles, 18000);
  EXPECT_EQ(spot.curve, c.name);
  rate(spot, c, 0.975, 31251);
  EXPECT_EQ(spot.verdict, Verdict::fail);
}

// Amplitude 100 is a range of 200: 182250 cycles on EN 1993-1-9 90.
TEST(Rate, WeldClassTakesTheRange) {
  HotSpot spot;
  spot.fully_reversed = 100;
  rate(spot, weld_curve(weld_class("EN 1993-1-9 90")), 0.95, 1e5);
  EXPECT_NEAR(spot.life_design, 182250, 1e-3);
}

TEST(Rate, ConstantStressNeverFails) {
  HotSpot spot;
  rate(spot, parent_metal_curve(material("DP600"), 1), 0.99, 1e12);
  EXPECT_EQ(spot.verdict, Verdict::pass);
  EXPECT_TRUE(std::isinf(spot.life_design));
}

TEST(Verdict, HasWords) {
  EXPECT_EQ(to_string(Verdict::pass), "pass");
  EXPECT_EQ(to_string(Verdict::fail), "fail");
  EXPECT_EQ(to_string(Verdict::not_rated), "not rated");
}

}  // namespace
}  // namespace felloe
