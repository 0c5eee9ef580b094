// SPDX-License-Identifier: GPL-3.0-or-later
// Scalars of the stress state, blind to turning principal axes: kept for comparison only.
#include <algorithm>
#include <cmath>

#include "post/criteria_rows.h"
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
  return {amplitude, mean, fully_reversed_amplitude(amplitude, mean, constants), {}, amplitude};
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

namespace {

template <double (*scalar)(const Stress &)>
FatigueCriterion row(std::string name, std::string summary,
                     std::string (*caution)(const EquivalentStress &)) {
  FatigueCriterion r;
  r.name = std::move(name);
  r.summary = std::move(summary);
  r.harmonic = of_harmonic<scalar>;
  r.sampled = of_sampled<scalar>;
  r.source = "definition common practice";
  r.confidence = "from memory";
  r.takes_mean_stress_rule = true;
  r.caution = caution;
  return r;
}

std::string blind(const EquivalentStress &) {
  return "rated by a scalar of the stress, which is blind to turning principal axes (a stress of "
         "constant size that turns counts as none): for comparison only";
}

std::string blind_and_wrong_in_shear(const EquivalentStress &e) {
  return blind(e) + "; the sign of the hydrostatic stress gives shear a wrong mean";
}

}  // namespace

FatigueCriterion largest_principal_row() {
  return row<largest_principal>(
      "largest principal",
      "swing of the principal stress of largest size, mean by the mean-stress rule; blind to "
      "turning principal axes: for comparison only",
      blind);
}

FatigueCriterion signed_von_mises_row() {
  return row<signed_von_mises>(
      "signed von Mises",
      "swing of the von Mises stress with the sign of the hydrostatic stress, mean by the "
      "mean-stress rule; blind to turning principal axes (amplitude 0 for a stress of constant "
      "size that turns) and wrong for pure shear: for comparison only",
      blind_and_wrong_in_shear);
}

}  // namespace felloe
