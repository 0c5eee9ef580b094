// SPDX-License-Identifier: GPL-3.0-or-later
// Lives on S-N curves with scatter, and the synthetic curve of parent metal.
#include "post/sn_curve.h"

#include <fmt/format.h>

#include <boost/math/distributions/normal.hpp>
#include <cassert>
#include <cmath>
#include <limits>

#include "mesher/error.h"
#include "post/fkm.h"

namespace felloe {
namespace {

constexpr double never = std::numeric_limits<double>::infinity();
constexpr double common_scatter = 0.2;
// A stress within rounding of the knee lies on it.
constexpr double rounding = 1e-12;

const char *common_scatter_source = "common practice, no source";

/// Weibull lives: deviations of log10 N from the median, (lg(-ln P) - lg(ln 2)) / shape.
constexpr double root_6_over_pi = 0.77969680123367658;

/// Deviations of log10 N that the median lies above the life of this survival probability.
double quantile(const SnCurve &c, double survival) {
  if (!(survival > 0 && survival < 1))
    throw Error(
        fmt::format("survival probability {:g}: not a probability of a curve with scatter; "
                    "accepted are values between 0 and 1, for example 0.9",
                    survival));
  if (c.scatter == LifeScatter::weibull)
    return root_6_over_pi * (std::log(std::log(2.0)) - std::log(-std::log(survival)));
  return boost::math::quantile(boost::math::normal(), survival);
}

/// Its inverse.
double survival_of(const SnCurve &c, double deviations) {
  if (c.scatter == LifeScatter::weibull)
    return std::exp(-std::log(2.0) * std::exp(-deviations / root_6_over_pi));
  return boost::math::cdf(boost::math::normal(), deviations);
}

/// What the curve's stresses are multiplied by for another survival probability.
double stress_shift(const SnCurve &c, double survival) {
  const double decades = (quantile(c, c.survival) - quantile(c, survival)) * c.log10_life_scatter;
  return std::pow(10.0, decades / c.slope);
}

double line(double life, double stress, double at, double slope) {
  return life * std::pow(stress / at, slope);
}

/// Stress of the curve as it stands at a life.
double stress_at(const SnCurve &c, double cycles) {
  if (cycles <= c.knee_cycles) return line(c.knee_amplitude, c.knee_cycles, cycles, 1 / c.slope);
  if (c.slope_below == 0) return c.knee_amplitude;
  const double life = c.cutoff_cycles > 0 ? std::min(cycles, c.cutoff_cycles) : cycles;
  return line(c.knee_amplitude, c.knee_cycles, life, 1 / c.slope_below);
}

}  // namespace

double cycles_to_failure(const SnCurve &c, double amplitude, double survival) {
  assert(c.slope > 0 && c.knee_cycles > 0 && c.knee_amplitude > 0);
  if (std::isnan(amplitude))
    throw Error(
        fmt::format("S-N curve '{}': stress is not a number: no life; look at the solution "
                    "of this load",
                    c.name));
  if (amplitude <= 0) return never;
  const double stress = amplitude / stress_shift(c, survival);
  if (stress >= c.knee_amplitude * (1 - rounding))
    return line(c.knee_cycles, c.knee_amplitude, stress, c.slope);
  if (c.slope_below == 0) return never;
  if (c.cutoff_cycles > 0 && stress < stress_at(c, c.cutoff_cycles) * (1 - rounding)) return never;
  return line(c.knee_cycles, c.knee_amplitude, stress, c.slope_below);
}

double amplitude_for_life(const SnCurve &c, double cycles, double survival) {
  assert(cycles > 0);
  return stress_at(c, cycles) * stress_shift(c, survival);
}

double survival_at(const SnCurve &c, double amplitude, double cycles) {
  if (amplitude <= 0) return 1;
  const double strength = stress_at(c, cycles);
  if (c.log10_life_scatter <= 0) return amplitude <= strength ? 1 : 0;
  const double decades = c.slope * std::log10(strength / amplitude);
  return survival_of(c, quantile(c, c.survival) + decades / c.log10_life_scatter);
}

SnCurve parent_metal_curve(const Material &m, double roughness_rz) {
  const double ratio = fkm_constants(m.family).fatigue_ratio,
               k_r = roughness_factor(m, roughness_rz);
  SnCurve c;
  c.name = m.name + " parent metal";
  c.knee_amplitude = fatigue_strength(m) * k_r;
  c.knee_cycles = 1e6;
  c.slope = 5;
  c.survival = 0.975;
  c.log10_life_scatter = common_scatter;
  c.scatter_source = common_scatter_source;
  c.source = "FKM guideline, synthetic S-N curve from tensile strength";
  c.confidence = "constants found second-hand, verify";
  c.assumptions = {
      fmt::format("{}: sigma_W = {:g} x {:g} MPa at 1e6 cycles, slope 5, 97.5 % survival (FKM)",
                  m.name, ratio, m.tensile_strength),
      fmt::format("surface: roughness factor {:.3f} for Rz {:g} um (FKM)", k_r, roughness_rz),
      fmt::format("scatter: standard deviation {:g} of log10 life ({})", common_scatter,
                  common_scatter_source)};
  if (m.family != MaterialFamily::steel) {
    c.slope_below = 15;
    c.cutoff_cycles = 1e8;
    c.assumptions.push_back(
        "aluminium: slope 15 from 1e6 to 1e8 cycles (FKM, from memory, verify)");
  }
  return c;
}

}  // namespace felloe
