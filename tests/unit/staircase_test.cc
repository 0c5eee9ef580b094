// SPDX-License-Identifier: GPL-3.0-or-later
// Proves staircase evaluation, tolerance factors and the regression line on known examples.
#include "post/staircase.h"

#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "mesher/error.h"
#include "post/line_regression.h"
#include "post/tolerance_factors.h"

namespace felloe {
namespace {

/// "300o 320x": a level and how it ended.
std::vector<StaircaseTest> tests(const std::vector<std::string> &words) {
  std::vector<StaircaseTest> all;
  for (const auto &w : words) all.push_back({std::stod(w), w.back() == 'x'});
  return all;
}

const std::vector<std::string> twenty{"300o", "320x", "300x", "280o", "300o", "320x", "300o",
                                      "320o", "340x", "320x", "300x", "280o", "300o", "320x",
                                      "300x", "280o", "300x", "280x", "260o", "280o"};

// Dixon and Mood (J. Am. Stat. Assoc. 43, 1948) by hand: failures F = 10, A = 15, B = 29; 280 + 20
// (1.5 - 0.5), 1.62 x 20 (0.65 + 0.029).
TEST(Staircase, DixonAndMoodByHand) {
  const StaircaseEvaluation e = staircase(tests(twenty));
  EXPECT_EQ(e.step, 20);
  EXPECT_EQ(e.events, 10);
  EXPECT_TRUE(e.by_failures);
  EXPECT_NEAR(e.bracket, 0.65, 1e-12);
  EXPECT_NEAR(e.dixon_mood.mean, 300, 1e-12);
  EXPECT_NEAR(e.dixon_mood.deviation, 21.9996, 1e-10);
}

// Ten of each: counted by run-outs the same tests give the same mean and deviation. Mirrored about
// 300 MPa run-outs are failures, and the rule for run-outs (+ 1/2) that for failures (- 1/2).
TEST(Staircase, CountedByRunOutsGivesTheSame) {
  std::vector<StaircaseTest> mirrored;
  for (const StaircaseTest &t : tests(twenty)) mirrored.push_back({600 - t.stress, !t.failed});
  const StaircaseEvaluation e = staircase(mirrored);
  EXPECT_EQ(e.events, 10);
  EXPECT_NEAR(600 - e.dixon_mood.mean, 300, 1e-12);
  EXPECT_NEAR(e.dixon_mood.deviation, 21.9996, 1e-10);
}

// Mean and deviation by an independent calculation of the probit likelihood.
TEST(Staircase, ProbitByMaximumLikelihood) {
  const StaircaseEvaluation e = staircase(tests(twenty));
  ASSERT_TRUE(e.likelihood_found);
  EXPECT_NEAR(e.likelihood.mean, 300, 1e-3);
  EXPECT_NEAR(e.likelihood.deviation, 22.0376, 1e-3);
}

TEST(Staircase, RunOutsCountWhereTheyAreRarer) {
  // run-outs at 280 (2) and 300 (1): F 3, A 1, B 1: 280 + 20 (1/3 + 1/2)
  const StaircaseEvaluation e =
      staircase(tests({"340x", "320x", "300x", "280o", "300o", "320x", "300x", "280o"}));
  EXPECT_FALSE(e.by_failures);
  EXPECT_NEAR(e.dixon_mood.mean, 280 + 20 * (1 / 3. + 0.5), 1e-12);
  EXPECT_NEAR(e.bracket, 2 / 9., 1e-12);
  EXPECT_NEAR(e.dixon_mood.deviation, 0.53 * 20, 1e-12);
}

TEST(Staircase, WithoutOverlapOnlyTheSimpleRuleAnswers) {
  const StaircaseEvaluation e = staircase(tests({"300x", "280o", "300x", "280o"}));
  EXPECT_FALSE(e.likelihood_found);
  EXPECT_NEAR(e.dixon_mood.mean, 290, 1e-12);
}

TEST(Staircase, RefusesWhatIsNone) {
  EXPECT_THROW(staircase(tests({"300x", "300o"})), Error);
  EXPECT_THROW(staircase(tests({"300x", "280x", "260x"})), Error);
  EXPECT_THROW(staircase(tests({"300x", "280o", "307o"})), Error);
}

// n; P 90 %, 95 %, 99 % at C 75, 90, 95 %, by an independent noncentral t; n = 10, P 90 %, C 95 %:
// 2.355 in ISO 12107 (from memory).
TEST(ToleranceFactors, TableOfTheNoncentralT) {
  const struct {
    int n;
    double k[9];
  } rows[] = {{6, {1.8592, 2.4937, 3.0063, 2.3356, 3.0919, 3.7077, 3.2439, 4.2425, 5.0620}},
              {10, {1.6706, 2.0657, 2.3546, 2.1037, 2.5684, 2.9110, 2.9267, 3.5317, 3.9811}},
              {15, {1.5772, 1.8668, 2.0684, 1.9908, 2.3290, 2.5660, 2.7751, 3.2118, 3.5201}},
              {20, {1.5280, 1.7652, 1.9260, 1.9320, 2.2078, 2.3960, 2.6969, 3.0515, 3.2952}},
              {30, {1.4746, 1.6571, 1.7773, 1.8686, 2.0798, 2.2198, 2.6136, 2.8837, 3.0639}}};
  const double survival[] = {0.9, 0.95, 0.99}, confidence[] = {0.75, 0.9, 0.95};
  for (const auto &row : rows)
    for (int i = 0; i < 9; ++i)
      EXPECT_NEAR(tolerance_factor(row.n, survival[i / 3], confidence[i % 3]), row.k[i], 6e-5)
          << row.n << " " << i;
  EXPECT_THROW(tolerance_factor(1, 0.9, 0.95), Error);
}

// Worked example of ASTM E739, 8.3: plastic strain amplitude and cycles (from memory; its results
// -0.24474, -1.45144, 0.07837 / 7 come out, so that the numbers are right).
TEST(LineRegression, WorkedExampleOfThePractice) {
  const double rows[][2] = {{.01636, 168},  {.01609, 200},   {.00675, 1000},
                            {.00682, 1180}, {.00179, 4730},  {.00160, 8035},
                            {.00165, 5254}, {.00053, 28617}, {.00054, 32650}};
  std::vector<double> x, y;
  for (const auto &r : rows) x.push_back(std::log10(r[0])), y.push_back(std::log10(r[1]));
  const LineRegression r = line_regression(x, y, 0.95);
  EXPECT_NEAR(r.a, -0.2447377, 1e-6);
  EXPECT_NEAR(r.b, -1.4514399, 1e-6);
  EXPECT_NEAR(r.squares, 0.0783666, 1e-6);
  EXPECT_NEAR(r.deviation, 0.1058075, 1e-6);
  EXPECT_NEAR(r.b_bounds.low, -1.60545, 1e-4);
  EXPECT_NEAR(r.b_bounds.high, -1.29743, 1e-4);
  EXPECT_NEAR(r.a_bounds.low, -0.64348, 1e-4);
  EXPECT_NEAR(r.a_bounds.high, 0.15400, 1e-4);
  EXPECT_THROW(line_regression({1, 1, 1}, {1, 2, 3}, 0.95), Error);
}

}  // namespace
}  // namespace felloe
