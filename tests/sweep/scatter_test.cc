// SPDX-License-Identifier: GPL-3.0-or-later
// Chances to pass follow the lognormal life, intervals the binomial, bars the known slopes.
#include "cli/sweep/scatter.h"

#include <gtest/gtest.h>

#include <cmath>

#include "cli/sweep/sampling.h"
#include "mesher/error.h"

namespace felloe {
namespace {

TestFigures rated(double p50, double design, double required) {
  TestFigures t;
  t.test = "cornering";
  t.life_p50 = p50;
  t.life_design = design;
  t.required_cycles = required;
  return t;
}

TEST(ChanceToPass, FollowsTheLognormalLife) {
  EXPECT_NEAR(chance_to_pass(rated(1e5, 4e4, 1e5), 0.9), 0.5, 1e-12);  // required = median
  EXPECT_NEAR(chance_to_pass(rated(1e5, 4e4, 4e4), 0.9), 0.9, 1e-12);  // required = rated life
  // two times the logarithmic distance of the rated life: Phi(2 * 1.281552), tables of Phi
  EXPECT_NEAR(chance_to_pass(rated(1e5, 4e4, 1.6e4), 0.9), 0.994813, 1e-5);
  EXPECT_THROW(chance_to_pass(rated(1e5, 1e5, 1e5), 0.5), Error);
}

// Clopper and Pearson 1934: with no success in n trials the upper bound is 1 - (alpha/2)^(1/n).
TEST(ShareOf, HasTheClopperPearsonInterval) {
  const Probability none = share_of(0, 20, 0.95);
  EXPECT_EQ(none.low, 0);
  EXPECT_NEAR(none.high, 1 - std::pow(0.025, 1.0 / 20), 1e-10);
  const Probability all = share_of(20, 20, 0.95);
  EXPECT_NEAR(all.low, std::pow(0.025, 1.0 / 20), 1e-10);
  EXPECT_EQ(all.high, 1);
}

TEST(Tornado, FindsTheSlopesOfALinearStress) {
  SweepHead head;
  head.keys = {"a", "b"};
  Designs designs;
  for (const CubePoint &p : random_points(4000, 2, 3)) {
    StoredDesign d;
    d.state = JobState::done;
    d.values = {p[0], p[1]};
    TestFigures t = rated(1e5, 4e4, 1e5);
    t.stress_MPa = 100 + 10 * (p[0] - 0.5) - 40 * (p[1] - 0.5);
    d.figures.tests = {t};
    d.figures.verdict = Verdict::fail;
    designs.push_back(d);
  }
  const auto found = influences(head, designs, 0);
  ASSERT_EQ(found.size(), 2u);
  const double deviation = std::sqrt(1.0 / 12);  // of a uniform number
  // sampling error of a slope on one key: spread of the other / sqrt(n) = 0.2, three times that
  EXPECT_EQ(found[0].key, 1u);
  EXPECT_NEAR(found[0].stress_percent, -40 * deviation, 0.3);
  EXPECT_NEAR(found[1].stress_percent, 10 * deviation, 0.6);
  const std::string report = scatter_report(head, designs, 0.9);
  EXPECT_NE(report.find("mean chance of a wheel 50.0 %"), std::string::npos) << report;
}

}  // namespace
}  // namespace felloe
