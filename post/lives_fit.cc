// SPDX-License-Identifier: GPL-3.0-or-later
// S-N lines by maximum likelihood.
#include "post/lives_fit.h"

#include <fmt/format.h>

#include <algorithm>
#include <boost/math/distributions/normal.hpp>
#include <cmath>
#include <limits>

#include "mesher/error.h"

namespace felloe {
namespace {

constexpr double pi_over_root_6 = 1.28254983016186409554;  // deviation of the extreme-value law

LogDistribution law(LifeScatter d) {
  return d == LifeScatter::weibull ? LogDistribution::smallest_extreme : LogDistribution::normal;
}

CensoredSample sample_of(const std::vector<RigLife> &lives, double reference) {
  CensoredSample s;
  for (const RigLife &life : lives) {
    s.x.push_back({1, -std::log10(life.load / reference)});
    s.y.push_back(std::log10(life.cycles));
    s.run_out.push_back(life.run_out);
  }
  return s;
}

double geometric_mean(const std::vector<RigLife> &lives) {
  double sum = 0;
  for (const RigLife &life : lives) sum += std::log10(life.load);
  return std::pow(10.0, sum / static_cast<double>(lives.size()));
}

}  // namespace

double LivesFit::deviation() const {
  return distribution == LifeScatter::weibull ? pi_over_root_6 * scale : scale;
}

LivesFit fit_lives(const std::vector<RigLife> &lives, LifeScatter distribution, double confidence) {
  if (lives.empty()) throw Error("fit: no lives are given");
  LivesFit f;
  f.distribution = distribution;
  f.confidence = confidence;
  f.reference = geometric_mean(lives);
  f.smallest_load = std::numeric_limits<double>::infinity();
  for (const RigLife &life : lives) {
    ++(life.run_out ? f.run_outs : f.failures);
    f.smallest_load = std::min(f.smallest_load, life.load);
    f.largest_load = std::max(f.largest_load, life.load);
    f.largest_cycles = std::max(f.largest_cycles, life.cycles);
  }
  const CensoredSample sample = sample_of(lives, f.reference);
  const CensoredFit fit = censored_fit(sample, law(distribution));
  f.a = fit.beta[0];
  f.slope = fit.beta[1];
  f.scale = fit.scale;
  f.log_likelihood = fit.log_likelihood;
  if (!(f.slope > 0))
    throw Error(
        fmt::format("fit: the lives grow with the load (slope {:.3g}); look for swapped "
                    "columns or wrong lives",
                    f.slope));
  f.slope_bounds = likelihood_bounds(sample, fit, {0, 1, 0}, confidence);
  const double z = boost::math::quantile(boost::math::normal(), 0.5 + 0.5 * confidence);
  const double factor = std::exp(z * std::sqrt(fit.covariance[2][2]) / f.scale);
  f.deviation_bounds = {f.deviation() / factor, f.deviation() * factor};
  return f;
}

double life_at(const LivesFit &f, double load, double survival) {
  const double z = standard_quantile(law(f.distribution), 1 - survival);
  return std::pow(10.0, f.a - f.slope * std::log10(load / f.reference) + z * f.scale);
}

double load_at(const LivesFit &f, double cycles, double survival) {
  const double z = standard_quantile(law(f.distribution), 1 - survival);
  return f.reference * std::pow(10.0, (f.a + z * f.scale - std::log10(cycles)) / f.slope);
}

Bounds life_bounds(const LivesFit &f, const std::vector<RigLife> &lives, double load,
                   double survival) {
  const CensoredSample sample = sample_of(lives, f.reference);
  const CensoredFit fit = censored_fit(sample, law(f.distribution));
  const double z = standard_quantile(law(f.distribution), 1 - survival);
  const Bounds b =
      likelihood_bounds(sample, fit, {1, -std::log10(load / f.reference), z}, f.confidence);
  return {std::pow(10.0, b.low), std::pow(10.0, b.high)};
}

SnCurve curve_of(const LivesFit &f, const std::string &name, bool stress_range,
                 const std::string &source) {
  SnCurve c;
  c.name = name;
  c.knee_cycles = f.largest_cycles;
  c.knee_amplitude = load_at(f, f.largest_cycles, 0.5);
  c.slope = c.slope_below = f.slope;
  c.survival = 0.5;
  c.log10_life_scatter = f.deviation();
  c.scatter = f.distribution;
  c.scatter_source = "rig lives, " + source;
  c.stress_range = stress_range;
  c.source = source;
  c.confidence = "own value";
  return c;
}

}  // namespace felloe
