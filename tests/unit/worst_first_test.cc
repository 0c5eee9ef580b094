// SPDX-License-Identifier: GPL-3.0-or-later
// The order of rated places: what fails first, then by the share of the allowed stress.
#include "post/worst_first.h"

#include <gtest/gtest.h>

#include <cmath>

namespace felloe {
namespace {

HotSpot place(const std::string &name, const SnCurve &curve, double stress, double required) {
  HotSpot spot;
  spot.feature = name;
  spot.test = "a test";
  spot.fully_reversed = stress;
  rate(spot, curve, 0.9, required);
  return spot;
}

SnCurve curve(double knee_amplitude, double slope, double slope_below = 0) {
  SnCurve c;
  c.knee_amplitude = knee_amplitude;
  c.knee_cycles = 1e6;
  c.slope = slope;
  c.slope_below = slope_below;
  return c;
}

std::vector<std::string> names(const std::vector<HotSpot> &spots) {
  std::vector<std::string> all;
  for (const HotSpot &s : spots) all.push_back(s.feature);
  return all;
}

TEST(WorstFirst, APlaceNearItsLimitComesBeforeOneOfShorterButAmpleLife) {
  // 2e6 cycles at 40 MPa: 1e6 (80 / 40)^3 = 8e6, four times enough, at 0.63 of the allowed stress;
  // the other one never breaks, but 5 % more stress and it does.
  std::vector<HotSpot> spots{place("weld toe", curve(80, 3, 3), 40, 2e6),
                             place("bend", curve(200, 5), 190.5, 2e6)};
  EXPECT_DOUBLE_EQ(spots[0].life_design, 8e6);
  EXPECT_TRUE(std::isinf(spots[1].life_design));
  sort_and_number(spots);
  EXPECT_EQ(names(spots), (std::vector<std::string>{"bend", "weld toe"}));
  EXPECT_EQ(spots[0].id, 1);
  EXPECT_EQ(spots[1].id, 2);
  EXPECT_NEAR(utilisation(spots[0]), 0.9525, 1e-12);
  EXPECT_NEAR(utilisation(spots[1]), std::pow(0.25, 1 / 3.0), 1e-12);
  EXPECT_EQ(shortest_lived(spots, "a test")->feature, "weld toe");
  EXPECT_EQ(worst_of(spots, "a test")->feature, "bend");
}

TEST(WorstFirst, OfPlacesThatFailTheFirstToCrackComesFirst) {
  // 1.30 of the allowed stress with slope 10 lasts 0.07 of the cycles, 1.35 with slope 3 lasts 0.41
  std::vector<HotSpot> spots{
      place("passes", curve(200, 5), 100, 1e5),
      place("flat curve", curve(100, 3), 1.35 * 100 * std::cbrt(10), 1e5),
      place("steep curve", curve(100, 10), 1.3 * 100 * std::pow(10, 0.1), 1e5)};
  EXPECT_NEAR(utilisation(spots[1]), 1.35, 1e-12);
  EXPECT_NEAR(utilisation(spots[2]), 1.30, 1e-12);
  sort_and_number(spots);
  EXPECT_EQ(names(spots), (std::vector<std::string>{"steep curve", "flat curve", "passes"}));
}

TEST(WorstFirst, UtilisationIsAboveOneExactlyWhereThePlaceFails) {
  for (const double stress : {90.0, 125.0, 125.99, 126.0, 126.5, 200.0}) {  // allowed: 125.992
    const HotSpot spot = place("edge", curve(100, 3), stress, 5e5);
    EXPECT_EQ(utilisation(spot) > 1, spot.verdict == Verdict::fail) << stress;
  }
}

TEST(WorstFirst, PlacesWithoutACurveGoByStress) {
  HotSpot low, high;
  low.feature = "low";
  low.fully_reversed = 10;
  high.feature = "high";
  high.fully_reversed = 20;
  std::vector<HotSpot> spots{low, high};
  sort_and_number(spots);
  EXPECT_EQ(names(spots), (std::vector<std::string>{"high", "low"}));
  EXPECT_EQ(shortest_lived(spots, "another test"), nullptr);
}

}  // namespace
}  // namespace felloe
