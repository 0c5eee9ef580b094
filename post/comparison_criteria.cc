// SPDX-License-Identifier: GPL-3.0-or-later
// Scalars of the stress state, blind to turning principal axes: kept for comparison only.
#include <algorithm>
#include <cmath>

#include "post/criteria_rows.h"
#include "post/sn_curve.h"
#include "post/stress_path.h"
#include "post/turn_search.h"

namespace felloe {
namespace {

// Two states of opposite sign and equal size count as tension, whatever rounding says.
constexpr double rounding = 1e-9;

double largest_principal(const Stress &s) {
  const auto p = principal_stresses(s);
  return p[0] >= -p[2] * (1 - rounding) ? p[0] : p[2];
}

// The sign of the hydrostatic stress.
double signed_von_mises(const Stress &s) {
  const double size = von_mises(s);
  return hydrostatic(s) >= -rounding * size ? size : -size;
}

EquivalentStress corrected(double low, double high, const FatigueConstants &constants) {
  const double amplitude = 0.5 * (high - low), mean = 0.5 * (high + low);
  if (amplitude <= rounding * std::max(std::abs(high), std::abs(low))) return {0, mean, 0, {}};
  return {amplitude,
          mean,
          fully_reversed_amplitude(amplitude, mean, constants.mean_stress_sensitivity),
          {}};
}

template <double (*scalar)(const Stress &)>
EquivalentStress of_harmonic(const HarmonicHistory &h, const FatigueConstants &constants) {
  const HarmonicPath path(h);
  if (!path.alternates()) return {};
  const double high = maximum_over_turn([&](double phi) { return scalar(path.state(phi)); });
  const double low = -maximum_over_turn([&](double phi) { return -scalar(path.state(phi)); });
  return corrected(low, high, constants);
}

template <double (*scalar)(const Stress &)>
EquivalentStress of_sampled(const SampledHistory &h, const FatigueConstants &constants) {
  if (!SampledPath(h).alternates()) return {};
  double low = scalar(h.states.front()), high = low;
  for (const Stress &s : h.states) {
    low = std::min(low, scalar(s));
    high = std::max(high, scalar(s));
  }
  return corrected(low, high, constants);
}

}  // namespace

FatigueCriterion largest_principal_row() {
  return {"largest principal",
          "swing of the principal stress of largest size; blind to turning principal axes: for "
          "comparison only",
          of_harmonic<largest_principal>,
          of_sampled<largest_principal>,
          "definition common practice; mean stress FKM guideline",
          "from memory"};
}

FatigueCriterion signed_von_mises_row() {
  return {"signed von Mises",
          "swing of the von Mises stress with the sign of the hydrostatic stress; blind to turning "
          "principal axes (amplitude 0 for a stress of constant size that turns) and wrong for "
          "pure shear: for comparison only",
          of_harmonic<signed_von_mises>,
          of_sampled<signed_von_mises>,
          "definition common practice; mean stress FKM guideline",
          "from memory"};
}

}  // namespace felloe
