// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that the driver of NLopt finds known optima, keeps limits, counts points and stops.
#include "cli/thin/optimum.h"

#include <gtest/gtest.h>

#include <cmath>

#include "mesher/error.h"

namespace felloe {
namespace {

/// Least a + b with a b >= 1, and a slope limit b - a <= slope. Without it a = b = 1 by the
/// inequality of the means.
OptimumProblem hyperbola(double slope) {
  OptimumProblem p;
  p.variables = {{"a", 3, 0.1, 5}, {"b", 2, 0.1, 5}};
  p.linear = {{{{1, 1.0}, {0, -1.0}}, slope}};
  p.n_limits = 1;
  p.evaluate = [](const std::vector<double> &x, bool) {
    Evaluation e;
    e.objective = x[0] + x[1];
    e.gradient = {1, 1};
    e.limits = {1 / (x[0] * x[1]) - 1};
    e.limit_gradients = {{-1 / (x[0] * x[0] * x[1]), -1 / (x[0] * x[1] * x[1])}};
    return e;
  };
  return p;
}

TEST(Optimum, OfTheHyperbolaHasEqualSides) {
  OptimumRules rules;
  const Optimum o = smallest(hyperbola(10), rules);
  EXPECT_TRUE(o.feasible);
  // the objective is flat there: half the tolerance of the objective is its square in a, b
  EXPECT_NEAR(o.x[0], 1, 0.02);
  EXPECT_NEAR(o.x[1], 1, 0.02);
  EXPECT_NEAR(o.at.objective, 2, 2 * rules.limit_tolerance);
}

TEST(Optimum, KeepsALinearLimit) {
  // b = a - 1 and a b = 1: a = (1 + sqrt 5) / 2
  OptimumRules rules;
  const Optimum o = smallest(hyperbola(-1), rules);
  EXPECT_TRUE(o.feasible);
  EXPECT_NEAR(o.x[0], 0.5 * (1 + std::sqrt(5)), 0.005);
  EXPECT_LE(o.x[1] - o.x[0], -1 + rules.limit_tolerance);
}

TEST(Optimum, NeverUsesMorePointsThanAllowed) {
  OptimumRules rules;
  rules.max_evaluations = 3;
  int count = 0;
  OptimumProblem p = hyperbola(10);
  p.evaluate = [&, plain = p.evaluate](const std::vector<double> &x, bool gradients) {
    ++count;
    return plain(x, gradients);
  };
  const Optimum o = smallest(p, rules);
  EXPECT_EQ(o.steps.size(), 3u);
  EXPECT_LE(count, 6);  // again with gradients where it went on
  EXPECT_NE(o.ended.find("used up"), std::string::npos) << o.ended;
}

TEST(Optimum, SaysWhenTheLimitsCannotBeKept) {
  OptimumProblem p = hyperbola(10);
  for (Variable &v : p.variables) v.start = v.high = 0.5;  // a b = 0.25 at most
  const Optimum o = smallest(p, {});
  EXPECT_FALSE(o.feasible);
  EXPECT_NEAR(o.x[0], 0.5, 1e-6);
}

TEST(Optimum, PassesErrorsOfAPointOn) {
  OptimumProblem p = hyperbola(10);
  p.evaluate = [](const std::vector<double> &, bool) -> Evaluation {
    throw Error("no such wheel");
  };
  EXPECT_THROW(smallest(p, {}), Error);
  p = hyperbola(10);
  p.variables[0].low = 6;
  EXPECT_THROW(smallest(p, {}), Error);
}

}  // namespace
}  // namespace felloe
