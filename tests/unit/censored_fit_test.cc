// SPDX-License-Identifier: GPL-3.0-or-later
// Proves the fits with run-outs on published samples, and the bounds on what they must satisfy.
#include "post/censored_fit.h"

#include <gtest/gtest.h>

#include <cmath>

#include "mesher/error.h"

namespace felloe {
namespace {

struct Row {
  double at, life;
  bool run_out;
};

// Right-censored test of 40 motor insulations (hours at temperatures in C), Schmee and Hahn 1979.
std::vector<Row> motorettes() {
  std::vector<Row> all(10, Row{150, 8064, true});
  for (const double h : {1764., 2772., 3444., 3542., 3780., 4860., 5196.})
    all.push_back({170, h, false});
  all.insert(all.end(), 3, Row{170, 5448, true});
  for (const double h : {408., 408., 1344., 1344., 1440.}) all.push_back({190, h, false});
  all.insert(all.end(), 5, Row{190, 1680, true});
  for (const double h : {408., 408., 504., 504., 504.}) all.push_back({220, h, false});
  all.insert(all.end(), 5, Row{220, 528, true});
  return all;
}

// Low-cycle fatigue of a nickel alloy (ksi, kilocycles), Nelson 1990, as remembered.
const std::vector<Row> nickel_alloy{
    {80.3, 211.629, false}, {80.6, 200.027, false}, {80.8, 57.923, true},   {84.3, 155.000, false},
    {85.2, 13.949, false},  {85.6, 112.968, true},  {85.8, 152.680, false}, {86.4, 156.725, false},
    {86.7, 138.114, true},  {87.2, 56.723, false},  {87.3, 121.075, false}, {89.7, 122.372, true},
    {91.3, 112.002, false}, {99.8, 43.331, false},  {100.1, 12.076, false}, {100.5, 13.181, false},
    {113.0, 18.067, false}, {114.8, 21.300, false}, {116.4, 15.616, false}, {118.0, 13.030, false},
    {118.4, 8.489, false},  {118.6, 12.434, false}, {120.4, 9.750, false},  {142.5, 11.865, false},
    {144.5, 6.705, false},  {145.9, 5.733, false}};

template <class X, class Y>
CensoredSample sample(const std::vector<Row> &rows, X x, Y y) {
  CensoredSample s;
  for (const Row &r : rows) {
    s.x.push_back(x(r.at));
    s.y.push_back(y(r.life));
    s.run_out.push_back(r.run_out);
  }
  return s;
}

double log10_of(double v) { return std::log10(v); }
double ln_of(double v) { return std::log(v); }

/// -log of the life's density instead of that of its logarithm: each failure counts its life.
double of_lives(const CensoredFit &fit, const CensoredSample &s) {
  double sum = fit.log_likelihood;
  for (std::size_t i = 0; i < s.y.size(); ++i)
    if (!s.run_out[i]) sum -= s.y[i];
  return sum;
}

CensoredSample arrhenius() {
  return sample(
      motorettes(),
      [](double t) {
        return std::vector<double>{1, 1000 / (t + 273.2)};
      },
      log10_of);
}

// -6.019, 4.311, 0.2592: Schmee and Hahn 1979; further digits by an independent calculation.
TEST(CensoredFit, LognormalLivesOfMotorettes) {
  const CensoredFit fit = censored_fit(arrhenius(), LogDistribution::normal);
  EXPECT_NEAR(fit.beta[0], -6.01925, 2e-5);
  EXPECT_NEAR(fit.beta[1], 4.31125, 1e-5);
  EXPECT_NEAR(fit.scale, 0.25918, 5e-6);
}

// 16.3185, -0.0453, 0.334, -147.4: Venables and Ripley; further digits by an independent
// calculation
TEST(CensoredFit, WeibullLivesOfMotorettes) {
  const CensoredSample s = sample(
      motorettes(),
      [](double t) {
        return std::vector<double>{1, t};
      },
      ln_of);
  const CensoredFit fit = censored_fit(s, LogDistribution::smallest_extreme);
  EXPECT_NEAR(fit.beta[0], 16.31852, 2e-5);
  EXPECT_NEAR(fit.beta[1], -0.045307, 1e-6);
  EXPECT_NEAR(fit.scale, 0.33433, 5e-6);
  EXPECT_NEAR(of_lives(fit, s), -147.3651, 1e-4);
}

// 217.61, -85.52, 8.48, 0.375, -93.38: Meeker and Escobar 1998, chapter 17 (from memory)
TEST(CensoredFit, CurvedWeibullLinesNeedNoScaling) {
  const CensoredSample s = sample(
      nickel_alloy,
      [](double x) {
        return std::vector<double>{1, std::log(x), std::log(x) * std::log(x)};
      },
      ln_of);
  const CensoredFit fit = censored_fit(s, LogDistribution::smallest_extreme);
  EXPECT_NEAR(fit.beta[0], 217.611, 2e-2);
  EXPECT_NEAR(fit.beta[1], -85.522, 1e-2);
  EXPECT_NEAR(fit.beta[2], 8.4827, 1e-3);
  EXPECT_NEAR(fit.scale, 0.37474, 1e-5);
  EXPECT_NEAR(of_lives(fit, s), -93.382, 1e-3);
}

// Without run-outs: mean and n - fold deviation, their variances s^2 / n and s^2 / (2 n).
TEST(CensoredFit, CompleteNormalSampleGivesMeanAndDeviation) {
  CensoredSample s;
  double mean = 0, squares = 0;
  const std::vector<double> y{4.1, 4.4, 4.5, 4.9, 5.0, 5.7};
  for (const double v : y) s.x.push_back({1}), s.y.push_back(v), s.run_out.push_back(false);
  for (const double v : y) mean += v / 6;
  for (const double v : y) squares += (v - mean) * (v - mean);
  const CensoredFit fit = censored_fit(s, LogDistribution::normal);
  EXPECT_NEAR(fit.beta[0], mean, 1e-7);
  EXPECT_NEAR(fit.scale, std::sqrt(squares / 6), 1e-7);
  EXPECT_NEAR(fit.covariance[0][0], squares / 36, 1e-7);
  EXPECT_NEAR(fit.covariance[1][1], squares / 72, 1e-7);
  EXPECT_NEAR(fit.covariance[0][1], 0, 1e-7);
  // likelihood ratio of a normal mean in closed form: n ln(1 + d^2 / s^2) = chi2
  const Bounds b = likelihood_bounds(s, fit, {1, 0}, 0.95);
  const double half = fit.scale * std::sqrt(std::exp(3.841458820694124 / 6) - 1);
  EXPECT_NEAR(b.low, mean - half, 1e-6);
  EXPECT_NEAR(b.high, mean + half, 1e-6);
}

TEST(CensoredFit, BoundsWidenWithConfidenceAndHoldTheEstimate) {
  const CensoredSample s = arrhenius();
  const CensoredFit fit = censored_fit(s, LogDistribution::normal);
  const std::vector<double> slope{0, 1, 0};
  const Bounds narrow = likelihood_bounds(s, fit, slope, 0.5);
  const Bounds wide = likelihood_bounds(s, fit, slope, 0.95);
  EXPECT_LT(wide.low, narrow.low);
  EXPECT_LT(narrow.low, fit.beta[1]);
  EXPECT_LT(fit.beta[1], narrow.high);
  EXPECT_LT(narrow.high, wide.high);
  // large samples: estimate -+ 1.96 standard errors; here within a fifth
  const double error = std::sqrt(fit.covariance[1][1]);
  EXPECT_NEAR(wide.high - fit.beta[1], 1.96 * error, 0.4 * error);
}

TEST(CensoredFit, RefusesSamplesThatTellNothing) {
  CensoredSample s;
  s.x = {{1, 2}, {1, 2}, {1, 2}, {1, 2}};
  s.y = {4, 5, 4.5, 4.7};
  s.run_out = {false, false, false, false};
  EXPECT_THROW(censored_fit(s, LogDistribution::normal), Error);  // one load, two constants
  s.x = {{1, 2}, {1, 3}, {1, 2}, {1, 3}};
  EXPECT_NO_THROW(censored_fit(s, LogDistribution::normal));
  s.run_out = {false, true, true, true};
  EXPECT_THROW(censored_fit(s, LogDistribution::normal), Error);
  s.run_out = {false, false, false, false};
  s.y = {4, 5, 4, 5};
  EXPECT_THROW(censored_fit(s, LogDistribution::normal), Error);  // no scatter
}

}  // namespace
}  // namespace felloe
