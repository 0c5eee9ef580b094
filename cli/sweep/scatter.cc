// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sweep/scatter.h"

#include <boost/math/distributions/binomial.hpp>
#include <boost/math/distributions/normal.hpp>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <optional>

#include "cli/sweep/sampling.h"
#include "mesher/error.h"
#include "post/summary.h"

namespace felloe {
namespace {

std::string percent(double share) {
  char text[32];
  std::snprintf(text, sizeof text, "%.1f %%", 100 * share);
  return text;
}

std::optional<double> number_of(const Value &v) {
  if (const auto *d = std::get_if<double>(&v)) return *d;
  if (const auto *i = std::get_if<int>(&v)) return double(*i);
  return {};
}

std::string line(const std::string &name, const Probability &p, double mean) {
  return "  " + name + ": " + percent(p.estimate) + " of the wheels (95 % interval " +
         percent(p.low) + " to " + percent(p.high) + "); mean chance of a wheel " + percent(mean) +
         "\n";
}

std::string bars(const SweepHead &head, const std::vector<Influence> &all) {
  if (all.empty()) return "";
  const double most = std::max(1e-12, std::abs(all[0].stress_percent));
  std::string text;
  for (const Influence &i : all) {
    char change[32];
    std::snprintf(change, sizeof change, "%+8.2f %%  ", i.stress_percent);
    const auto length = std::size_t(std::lround(30 * std::abs(i.stress_percent) / most));
    text += "    " + std::string(change) + std::string(length, '#') +
            std::string(32 - length, ' ') + head.keys[i.key] + "\n";
  }
  return text;
}

}  // namespace

Probability share_of(long successes, long trials, double confidence) {
  using boost::math::binomial_distribution;
  const double tail = (1 - confidence) / 2, n = double(trials), k = double(successes);
  return {k / n, binomial_distribution<>::find_lower_bound_on_p(n, k, tail),
          binomial_distribution<>::find_upper_bound_on_p(n, k, tail)};
}

double chance_to_pass(const TestFigures &t, double survival) {
  if (std::isinf(t.life_design)) return 1;
  const boost::math::normal normal;
  const double z = boost::math::quantile(normal, survival);
  if (z < 1e-6)
    throw Error(
        "[rating] survival_percent: at 50 % the rated life says nothing about its scatter; "
        "rate for example 90 % and sweep again");
  const double margin = std::log10(t.life_p50 / t.required_cycles);
  if (std::isinf(t.life_p50)) return survival;  // at least: the rated life has this chance
  const double deviation = std::log10(t.life_p50 / t.life_design) / z;
  if (deviation <= 0) return margin >= 0 ? 1 : 0;
  return boost::math::cdf(normal, margin / deviation);
}

std::vector<Influence> influences(const SweepHead &head, const Designs &designs, std::size_t test) {
  const auto shown = computed(head, designs);
  std::vector<Influence> all;
  for (std::size_t k = 0; k < head.keys.size(); ++k) {
    double n = 0, x_mean = 0, y_mean = 0, xx = 0, xy = 0;
    for (const std::size_t i : shown) {
      const auto x = number_of(designs[i].values[k]);
      if (!x) continue;
      const double y = designs[i].figures.tests[test].stress_MPa;
      n += 1;
      const double dx = *x - x_mean, dy = y - y_mean;
      x_mean += dx / n, y_mean += dy / n;
      xx += dx * (*x - x_mean), xy += dx * (y - y_mean);
    }
    if (n < 2 || xx == 0 || y_mean == 0) continue;
    const double deviation = std::sqrt(xx / (n - 1));
    all.push_back({k, 100 * xy / xx * deviation / y_mean});
  }
  std::stable_sort(all.begin(), all.end(), [](const Influence &a, const Influence &b) {
    return std::abs(a.stress_percent) > std::abs(b.stress_percent);
  });
  return all;
}

std::string scatter_report(const SweepHead &head, const Designs &designs, double survival) {
  const auto shown = computed(head, designs);
  if (shown.empty() || !anything_rated(designs))
    throw Error("sweep: no design is rated by a rig test; there is nothing that could be passed");
  const auto &tests = designs[shown[0]].figures.tests;
  const auto strength = random_points(int(shown.size()), int(tests.size()), 1);
  std::string each, tornado;
  std::vector<bool> all_passed(shown.size(), true);
  std::vector<double> all_chance(shown.size(), 1);
  const auto mean_of = [](const std::vector<double> &v) {
    double sum = 0;
    for (const double x : v) sum += x;
    return sum / double(v.size());
  };
  for (std::size_t t = 0; t < tests.size(); ++t) {
    long passed = 0;
    std::vector<double> chances;
    for (std::size_t i = 0; i < shown.size(); ++i) {
      chances.push_back(chance_to_pass(designs[shown[i]].figures.tests[t], survival));
      const bool passes = strength[i][t] < chances.back();
      passed += passes;
      all_passed[i] = all_passed[i] && passes;
      all_chance[i] *= chances.back();
    }
    each += line(tests[t].test, share_of(passed, long(shown.size()), 0.95), mean_of(chances));
    tornado += "  " + tests[t].test + "\n" + bars(head, influences(head, designs, t));
  }
  const long passed = std::count(all_passed.begin(), all_passed.end(), true);
  return std::to_string(shown.size()) +
         " wheels; fatigue strength drawn for each wheel and test\n" + "passed\n" + each +
         line("all of them", share_of(passed, long(shown.size()), 0.95), mean_of(all_chance)) +
         "change of the worst stress by one standard deviation of a key\n" + tornado +
         "Intervals hold for kind = \"random\" only: other plans do not draw independently. "
         "Designs "
         "that failed to\ncompute are left out.\n" +
         caution_text(sweep_cautions(designs), false);
}

}  // namespace felloe
