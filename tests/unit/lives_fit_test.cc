// SPDX-License-Identifier: GPL-3.0-or-later
// Proves the S-N line from lives with run-outs, and the curve that a case gets from it.
#include "post/lives_fit.h"

#include <gtest/gtest.h>

#include <cmath>

#include "mesher/error.h"

namespace felloe {
namespace {

/// Invented lives at five levels, three of them run-outs at 5e6.
std::vector<RigLife> lives() {
  std::vector<RigLife> all;
  for (const double n : {62000., 85000., 51000.}) all.push_back({400, n, false});
  for (const double n : {140000., 210000., 165000.}) all.push_back({350, n, false});
  for (const double n : {520000., 390000., 700000.}) all.push_back({300, n, false});
  for (const double n : {1.5e6, 2.6e6}) all.push_back({260, n, false});
  all.push_back({260, 5e6, true});
  all.push_back({240, 3.9e6, false});
  all.push_back({240, 5e6, true});
  all.push_back({240, 5e6, true});
  return all;
}

double at_300(const LivesFit &f) { return f.a - f.slope * std::log10(300 / f.reference); }

// a at 300 MPa, k, deviation, log-likelihood, strength at 2e6 by an independent calculation.
TEST(LivesFit, LineThroughLivesAndRunOuts) {
  const LivesFit f = fit_lives(lives(), LifeScatter::lognormal, 0.95);
  EXPECT_NEAR(at_300(f), 5.850096, 2e-6);
  EXPECT_NEAR(f.slope, 8.886423, 1e-5);
  EXPECT_NEAR(f.scale, 0.161306, 1e-6);
  EXPECT_NEAR(f.log_likelihood, 2.180044, 1e-6);
  EXPECT_NEAR(load_at(f, 2e6, 0.5), 266.9175, 1e-4);
  EXPECT_EQ(f.failures, 12);
  EXPECT_EQ(f.run_outs, 3);
}

// The two wrong ways to treat run-outs give other lines, by the same independent calculation.
TEST(LivesFit, RunOutsAreNeitherFailuresNorNothing) {
  std::vector<RigLife> dropped, failed = lives();
  for (const RigLife &life : lives())
    if (!life.run_out) dropped.push_back(life);
  for (RigLife &life : failed) life.run_out = false;
  const LivesFit without = fit_lives(dropped, LifeScatter::lognormal, 0.95);
  EXPECT_NEAR(at_300(without), 5.771875, 2e-6);
  EXPECT_NEAR(without.slope, 7.936187, 1e-5);
  // divided by n - 2 instead of n, as least squares do
  EXPECT_NEAR(without.scale * std::sqrt(12 / 10.), 0.108561, 2e-6);
  const LivesFit all = fit_lives(failed, LifeScatter::lognormal, 0.95);
  EXPECT_NEAR(at_300(all), 5.825996, 2e-6);
  EXPECT_NEAR(all.slope, 8.565139, 1e-5);
}

TEST(LivesFit, BoundsHoldTheEstimate) {
  for (const LifeScatter d : {LifeScatter::lognormal, LifeScatter::weibull}) {
    const LivesFit f = fit_lives(lives(), d, 0.9);
    EXPECT_LT(f.slope_bounds.low, f.slope);
    EXPECT_GT(f.slope_bounds.high, f.slope);
    EXPECT_NEAR(std::sqrt(f.deviation_bounds.low * f.deviation_bounds.high), f.deviation(), 1e-12);
    const Bounds b = life_bounds(f, lives(), 300, 0.9);
    EXPECT_LT(b.low, life_at(f, 300, 0.9));
    EXPECT_GT(b.high, life_at(f, 300, 0.9));
    EXPECT_NEAR(load_at(f, life_at(f, 310, 0.9), 0.9), 310, 1e-9);
  }
}

// The curve of a case and the fitted line are the same function, for both laws of scatter.
TEST(LivesFit, CurveOfTheCaseGivesTheFittedLives) {
  for (const LifeScatter d : {LifeScatter::lognormal, LifeScatter::weibull}) {
    const LivesFit f = fit_lives(lives(), d, 0.95);
    const SnCurve c = curve_of(f, "rig", false, "lives.csv");
    for (const double load : {230., 300., 420.})
      for (const double survival : {0.5, 0.9, 0.99})
        EXPECT_NEAR(cycles_to_failure(c, load, survival) / life_at(f, load, survival), 1, 1e-9);
  }
}

TEST(LivesFit, RefusesLivesThatGrowWithTheLoad) {
  const std::vector<RigLife> wrong{
      {200, 1e4, false}, {200, 2e4, false}, {300, 1e5, false}, {300, 2e5, false}};
  EXPECT_THROW(fit_lives(wrong, LifeScatter::lognormal, 0.95), Error);
}

}  // namespace
}  // namespace felloe
