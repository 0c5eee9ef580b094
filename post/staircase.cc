// SPDX-License-Identifier: GPL-3.0-or-later
// Evaluation of staircase tests.
#include "post/staircase.h"

#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <cmath>
#include <nlopt.hpp>
#include <set>
#include <string>

#include "mesher/error.h"

namespace felloe {
namespace {

/// Distance of the levels.
double step_of(const std::vector<StaircaseTest> &tests) {
  std::set<double> levels;
  for (const StaircaseTest &t : tests) levels.insert(t.stress);
  if (levels.size() < 2)
    throw Error("staircase: all tests ran at one load; at least two levels are needed");
  double step = HUGE_VAL;
  for (auto a = levels.begin(), b = std::next(a); b != levels.end(); ++a, ++b)
    step = std::min(step, *b - *a);
  for (const double level : levels) {
    const double i = (level - *levels.begin()) / step;
    if (std::fabs(i - std::round(i)) > 0.01)
      throw Error("staircase: load " + std::to_string(level) +
                  " does not lie on evenly spaced levels of step " + std::to_string(step) +
                  "; a staircase has one step; evaluate these tests as an S-N line instead");
  }
  return step;
}

void dixon_mood(const std::vector<StaircaseTest> &tests, StaircaseEvaluation &e) {
  e.step = step_of(tests);
  const auto failures =
      std::count_if(tests.begin(), tests.end(), [](const StaircaseTest &t) { return t.failed; });
  const auto n = static_cast<std::ptrdiff_t>(tests.size());
  if (failures == 0 || failures == n)
    throw Error(std::string("staircase: every test ") + (failures ? "failed" : "ran out") +
                "; the strength lies outside the levels; go on with the staircase");
  e.by_failures = failures <= n - failures;
  e.events = static_cast<int>(e.by_failures ? failures : n - failures);
  double lowest = HUGE_VAL;
  for (const StaircaseTest &t : tests)
    if (t.failed == e.by_failures) lowest = std::min(lowest, t.stress);
  double f = 0, a = 0, b = 0;
  for (const StaircaseTest &t : tests) {
    if (t.failed != e.by_failures) continue;
    const double i = std::round((t.stress - lowest) / e.step);
    f += 1, a += i, b += i * i;
  }
  e.bracket = (b * f - a * a) / (f * f);
  e.dixon_mood.mean = lowest + e.step * (a / f + (e.by_failures ? -0.5 : 0.5));
  e.dixon_mood.deviation = e.bracket >= 0.3 ? 1.62 * e.step * (e.bracket + 0.029) : 0.53 * e.step;
}

struct Probit {
  const std::vector<StaircaseTest> &tests;
  double origin, step;

  /// Log-likelihood at a + b x, x = (S - origin) / step: no pole in the deviation.
  double operator()(const std::vector<double> &at, std::vector<double> &gradient) const {
    static const boost::math::normal normal;
    double sum = 0;
    if (!gradient.empty()) gradient.assign(2, 0);
    for (const StaircaseTest &t : tests) {
      const double x = (t.stress - origin) / step, sign = t.failed ? 1 : -1;
      const double z = std::max(-30.0, sign * (at[0] + at[1] * x));
      const double p = boost::math::cdf(normal, z);
      sum += std::log(p);
      if (gradient.empty()) continue;
      const double slope = sign * boost::math::pdf(normal, z) / p;
      gradient[0] += slope;
      gradient[1] += slope * x;
    }
    return sum;
  }
};

double call(const std::vector<double> &at, std::vector<double> &gradient, void *probit) {
  return (*static_cast<const Probit *>(probit))(at, gradient);
}

/// Levels with both events, or failures below run-outs: else the likelihood rises without end.
bool overlap(const std::vector<StaircaseTest> &tests) {
  double lowest_failure = HUGE_VAL, highest_run_out = -HUGE_VAL;
  for (const StaircaseTest &t : tests)
    if (t.failed)
      lowest_failure = std::min(lowest_failure, t.stress);
    else
      highest_run_out = std::max(highest_run_out, t.stress);
  return lowest_failure < highest_run_out;
}

void probit(const std::vector<StaircaseTest> &tests, StaircaseEvaluation &e) {
  if (!overlap(tests)) return;
  Probit f{tests, e.dixon_mood.mean, e.step};
  nlopt::opt search(nlopt::LD_SLSQP, 2);
  search.set_max_objective(call, &f);
  search.set_xtol_rel(1e-12);
  search.set_ftol_abs(1e-14);
  search.set_maxeval(1000);
  std::vector<double> at{0, e.step / e.dixon_mood.deviation};
  double top = 0;
  try {
    search.optimize(at, top);
  } catch (const nlopt::roundoff_limited &) {
  }
  if (!(at[1] > 0)) return;  // failures get rarer with load: no strength in these tests
  e.likelihood = {f.origin - at[0] / at[1] * e.step, e.step / at[1]};
  e.likelihood_found = true;
}

}  // namespace

StaircaseEvaluation staircase(const std::vector<StaircaseTest> &tests) {
  StaircaseEvaluation e;
  dixon_mood(tests, e);
  probit(tests, e);
  return e;
}

}  // namespace felloe
