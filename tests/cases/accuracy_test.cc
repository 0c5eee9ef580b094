// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that error bars follow their formula and that the deciding hot spots are found.
#include "cli/accuracy.h"

#include <gtest/gtest.h>

#include <cmath>

namespace felloe {
namespace {

HotSpot spot(const std::string &feature, const std::string &test, double stress) {
  HotSpot h;
  h.feature = feature;
  h.test = test;
  h.fully_reversed = stress;
  return h;
}

/// Cells whose size along the sheet differs by 1.4.
void meshed_apart(Results &fine, Results &coarse) {
  fine.mesh.cells = 19600;
  coarse.mesh.cells = 10000;
}

// 1.25 x 10 / (1.4^1.5 - 1) / 200 = 9.524 %: by hand.
TEST(ErrorBars, FollowTheGridConvergenceFormula) {
  Results fine, coarse;
  fine.hot_spots = {spot("vent edge", "bend", 200), spot("nave bend", "bend", 100)};
  coarse.hot_spots = {spot("nave bend", "bend", 100), spot("vent edge", "bend", 190)};
  meshed_apart(fine, coarse);
  estimate_errors(fine, coarse, 1);
  EXPECT_NEAR(fine.hot_spots[0].error_percent, 100 * 1.25 * 10 / (std::pow(1.4, 1.5) - 1) / 200,
              1e-9);
  EXPECT_NEAR(fine.hot_spots[0].error_percent, 9.524, 0.01);
  EXPECT_EQ(fine.hot_spots[1].error_percent, 1.75);  // both meshes agree: the least there is
}

TEST(ErrorBars, StayOpenForHotSpotsThatTheCoarseMeshDoesNotHave) {
  Results fine, coarse;
  fine.hot_spots = {spot("vent edge", "bend", 200)};
  coarse.hot_spots = {spot("vent edge", "roll", 190)};
  meshed_apart(fine, coarse);
  estimate_errors(fine, coarse, 1);
  EXPECT_LT(fine.hot_spots[0].error_percent, 0);
}

TEST(ErrorBars, StayOpenWhereTheMeshesHardlyDiffer) {
  Results fine, coarse;
  fine.mesh.cells = 12000;  // q = 1.095
  coarse.mesh.cells = 10000;
  fine.hot_spots = coarse.hot_spots = {spot("vent edge", "bend", 200)};
  estimate_errors(fine, coarse, 1);
  EXPECT_LT(fine.hot_spots[0].error_percent, 0);
}

// 1.75 / 2^1.5 = 0.619 by hand.
TEST(ErrorBars, HaveALeastSizeThatFallsWithTheDensity) {
  EXPECT_EQ(least_error_percent(0.5), 1.75);
  EXPECT_EQ(least_error_percent(1), 1.75);
  EXPECT_NEAR(least_error_percent(2), 0.619, 1e-3);
}

TEST(ErrorBars, TheWorstHotSpotOfEveryTestDecides) {
  Results r;
  r.hot_spots = {spot("a", "bend", 1), spot("b", "roll", 1), spot("c", "bend", 1)};
  r.tests.resize(2);
  r.tests[0].name = "bend";
  r.tests[1].name = "roll";
  r.hot_spots[0].error_percent = 1;
  r.hot_spots[1].error_percent = 3;
  r.hot_spots[2].error_percent = 9;
  EXPECT_EQ(deciding_error(r), 3);
  r.hot_spots[1].error_percent = -1;
  EXPECT_LT(deciding_error(r), 0);
}

}  // namespace
}  // namespace felloe
