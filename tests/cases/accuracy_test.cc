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

// 1.25 x 10 / (1.4^2 - 1) / 200 = 6.510 %: by hand.
TEST(ErrorBars, FollowTheGridConvergenceFormula) {
  Results fine, coarse;
  fine.hot_spots = {spot("vent edge", "bend", 200), spot("nave bend", "bend", 100)};
  coarse.hot_spots = {spot("nave bend", "bend", 100), spot("vent edge", "bend", 190)};
  meshed_apart(fine, coarse);
  estimate_errors(fine, coarse, 1);
  EXPECT_NEAR(fine.hot_spots[0].error_percent, 6.510, 1e-3);
  EXPECT_EQ(fine.hot_spots[1].error_percent, 1.5);  // both meshes agree: the least there is
}

// 1.25 x 10 / (1.4 - 1) / 200 = 15.625 %: by hand.
TEST(ErrorBars, CountOnNoMoreThanOrderOneBesideThePressFitAndTheBondedFace) {
  for (const char *feature : {"flange bend", "bolt hole edge"}) {
    Results fine, coarse;
    fine.hot_spots = {spot(feature, "bend", 200)};
    coarse.hot_spots = {spot(feature, "bend", 190)};
    meshed_apart(fine, coarse);
    estimate_errors(fine, coarse, 1);
    EXPECT_NEAR(fine.hot_spots[0].error_percent, 15.625, 1e-3);
  }
}

// 1.25 x 10 / (1.4^2 - 1) / 200 = 6.510 % in one test; in the other both meshes agree by chance.
TEST(ErrorBars, AreTheLargestThatTheFeatureShowsInAnyTest) {
  Results fine, coarse;
  fine.hot_spots = {spot("rim well", "roll", 100), spot("rim well", "bend", 200),
                    spot("vent edge", "roll", 100)};
  coarse.hot_spots = {spot("rim well", "roll", 100), spot("rim well", "bend", 190),
                      spot("vent edge", "roll", 100)};
  meshed_apart(fine, coarse);
  estimate_errors(fine, coarse, 1);
  EXPECT_NEAR(fine.hot_spots[0].error_percent, 6.510, 1e-3);
  EXPECT_NEAR(fine.hot_spots[1].error_percent, 6.510, 1e-3);
  EXPECT_EQ(fine.hot_spots[2].error_percent, 1.5);
  EXPECT_EQ(fine.convergence.spots[0].error_percent, fine.hot_spots[0].error_percent);
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

// 1.5 / 2^2 = 0.375 by hand.
TEST(ErrorBars, HaveALeastSizeThatFallsWithTheDensity) {
  EXPECT_EQ(least_error_percent(0.5), 1.5);
  EXPECT_EQ(least_error_percent(1), 1.5);
  EXPECT_NEAR(least_error_percent(2), 0.375, 1e-12);
}

// order 2: an error that is to fall to a third needs 1.05 sqrt(3) = 1.82 times the density
TEST(NextDensity, FollowsTheOrderOfConvergence) {
  EXPECT_NEAR(next_density(1, 4, 2), 1.05 * std::sqrt(2), 1e-12);
  EXPECT_EQ(next_density(1, 6, 2), 2);  // near 2: the mesh at 1 serves as the coarser one
  EXPECT_EQ(next_density(1, 2.01, 2), 1.25);
  EXPECT_EQ(next_density(1, 50, 2), 2);
  EXPECT_EQ(next_density(1, -1, 2), 2);  // not known
}

TEST(NextDensity, StopsAtTheFinestMesh) {
  EXPECT_EQ(next_density(2, 50, 2), 2.8);
  EXPECT_EQ(next_density(2.8, 50, 2), 0);
  EXPECT_EQ(next_density(2.3, 50, 2), 0);
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
