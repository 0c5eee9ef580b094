// SPDX-License-Identifier: GPL-3.0-or-later
// Neuber's rule on a Ramberg-Osgood curve and strain-life with mean stress; the constants are in
// cyclic_estimates.cc.
#include "post/local_strain.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "mesher/error.h"

namespace felloe {
namespace {

constexpr double never = std::numeric_limits<double>::infinity();
constexpr double longest_life = 1e12;

/// Root of a function that grows, between low and high.
template <class Function>
double root_between(double low, double high, const Function &f) {
  for (int i = 0; i < 200 && high - low > 1e-14 * std::abs(high); ++i) {
    const double middle = 0.5 * (low + high);
    (f(middle) < 0 ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

}  // namespace

double CyclicCurve::strain(double stress) const {
  const double size = std::abs(stress);
  const double strain = size / youngs_modulus + std::pow(size / coefficient, 1 / exponent);
  return stress < 0 ? -strain : strain;
}

double StrainLife::strain_amplitude(double youngs_modulus, double cycles) const {
  return strength_coefficient / youngs_modulus * std::pow(2 * cycles, strength_exponent) +
         ductility_coefficient * std::pow(2 * cycles, ductility_exponent);
}

LocalState neuber(const CyclicCurve &curve, double elastic) {
  const double size = std::abs(elastic), energy = size * size / curve.youngs_modulus;
  if (size == 0) return {};
  const double stress =
      root_between(0, size, [&](double s) { return s * curve.strain(s) - energy; });
  const double sign = elastic < 0 ? -1 : 1;
  return {sign * stress, sign * energy / stress};
}

double strain_life_cycles(const CyclicConstants &k, const LocalState &amplitude, double mean,
                          StrainLifeMean rule) {
  const StrainLife &l = k.life;
  const double e = k.curve.youngs_modulus;
  const double used = rule == StrainLifeMean::morrow ? mean : 0;
  if (used >= l.strength_coefficient) return 0;
  // Falls with life: the damage that the material withstands, and the damage of the cycle.
  const auto withstood = [&](double log_cycles) {
    const double reversals = 2 * std::pow(10, log_cycles);
    const double basquin = std::pow(reversals, l.strength_exponent),
                 coffin = std::pow(reversals, l.ductility_exponent);
    if (rule == StrainLifeMean::smith_watson_topper)
      return l.strength_coefficient * basquin *
             (l.strength_coefficient * basquin + l.ductility_coefficient * e * coffin);
    return (l.strength_coefficient - used) / e * basquin + l.ductility_coefficient * coffin;
  };
  const double damage = rule == StrainLifeMean::smith_watson_topper
                            ? std::max(0.0, amplitude.stress + mean) * amplitude.strain * e
                            : amplitude.strain;
  const double last = std::log10(longest_life), first = std::log10(0.5);
  if (damage <= withstood(last)) return never;
  if (damage >= withstood(first)) return 0.5;
  return std::pow(10, root_between(first, last, [&](double x) { return damage - withstood(x); }));
}

YieldedCycle yielded_cycle(const CyclicConstants &k, double elastic_amplitude,
                           double elastic_mean) {
  YieldedCycle c;
  // The larger side is loaded first.
  const double sign = elastic_mean < 0 ? -1 : 1;
  c.largest = neuber(k.curve, sign * (std::abs(elastic_mean) + elastic_amplitude));
  c.amplitude = neuber(k.curve, elastic_amplitude);
  c.mean_stress = c.largest.stress - sign * c.amplitude.stress;
  c.cycles = strain_life_cycles(k, c.amplitude, c.mean_stress, StrainLifeMean::smith_watson_topper);
  c.cycles_morrow = strain_life_cycles(k, c.amplitude, c.mean_stress, StrainLifeMean::morrow);
  return c;
}

std::string yielding_note(const Material &m, double amplitude, double mean) {
  const double elastic = std::abs(mean) + amplitude;
  if (!(m.yield_strength > 0 && elastic > m.yield_strength)) return {};
  const YieldedCycle c = yielded_cycle(uniform_material_law(m), amplitude, mean);
  const std::string life =
      std::isfinite(c.cycles) ? fmt::format("{:.2g} cycles", c.cycles) : "more than 1e12 cycles";
  return fmt::format(
      "elastic answer no longer enough: {:.0f} MPa elastic, yield {:.0f} MPa; Neuber and the "
      "uniform material law (from memory) give {:.0f} MPa at {:.2f} % strain, strain amplitude "
      "{:.3f} % about a mean stress of {:.0f} MPa, life {} (SWT, 50 % survival, polished metal); "
      "the verdict keeps the elastic life",
      elastic, m.yield_strength, std::abs(c.largest.stress), 100 * std::abs(c.largest.strain),
      100 * c.amplitude.strain, c.mean_stress, life);
}

}  // namespace felloe
