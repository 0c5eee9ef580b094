// SPDX-License-Identifier: GPL-3.0-or-later
// Criteria of deviator and hydrostatic stress: Crossland, Dang Van, Papadopoulos.
#include <algorithm>
#include <cmath>

#include "post/criteria_rows.h"
#include "post/stress_path.h"
#include "post/turn_search.h"

namespace felloe {
namespace {

// a = (t - f / sqrt 3) / (f / 3) of Crossland and Papadopoulos.
double hydrostatic_weight(double ratio) { return 3 * (ratio - std::sqrt(1.0 / 3)); }

/// A fully reversed bar of amplitude s has the value t / f s under all three criteria.
EquivalentStress equivalent(double shear, const Swing &pressure, double value, double ratio) {
  return {shear, pressure.mean, std::max(0.0, value / ratio), {}};
}

// sqrt(J2,a) + a sH,max <= t, sqrt(J2,a) the radius of the smallest hypersphere round the path.
template <class Path>
EquivalentStress crossland(const Path &path, const FatigueConstants &constants) {
  if (!path.alternates()) return {};
  const double ratio = limit_ratio(constants), shear = path.deviator_ball().radius();
  const Swing pressure = path.hydrostatic();
  return equivalent(shear, pressure, shear + hydrostatic_weight(ratio) * pressure.largest(), ratio);
}

// sqrt(<Ta^2>) + a sH,max <= t, the mean taken over all planes and directions in them.
template <class Path>
EquivalentStress papadopoulos(const Path &path, const FatigueConstants &constants) {
  if (!path.alternates()) return {};
  const double ratio = limit_ratio(constants), shear = std::sqrt(path.mean_square_shear());
  const Swing pressure = path.hydrostatic();
  return equivalent(shear, pressure, shear + hydrostatic_weight(ratio) * pressure.largest(), ratio);
}

double tresca_shear(const Stress &s) {
  const auto p = principal_stresses(s);
  return 0.5 * (p[0] - p[2]);
}

template <class Function>
double largest_state(const HarmonicPath &path, const Function &f) {
  return maximum_over_turn([&](double phi) { return f(path.state(phi)); });
}

template <class Function>
double largest_state(const SampledPath &path, const Function &f) {
  double largest = f(path.states().front());
  for (const Stress &s : path.states()) largest = std::max(largest, f(s));
  return largest;
}

// max over time (tau_Tresca(s - s*) + a sH) <= t, s* the centre of the smallest hypersphere round
// the deviator path; a = 3 (t / f - 1 / 2).
template <class Path>
EquivalentStress dang_van(const Path &path, const FatigueConstants &constants) {
  if (!path.alternates()) return {};
  const double ratio = limit_ratio(constants), a = 3 * (ratio - 0.5);
  const Stress centre = path.deviator_centre();
  const auto shear = [&](const Stress &s) { return tresca_shear(s - centre); };
  const double value =
      largest_state(path, [&](const Stress &s) { return shear(s) + a * hydrostatic(s); });
  return equivalent(largest_state(path, shear), path.hydrostatic(), value, ratio);
}

const char *reported = "; amplitude reported: shear amplitude, mean: mean hydrostatic stress";

}  // namespace

FatigueCriterion crossland_row() {
  return {"Crossland",
          std::string("deviator amplitude + a largest hydrostatic stress") + reported,
          [](const HarmonicHistory &h, const FatigueConstants &c) {
            return crossland(HarmonicPath(h), c);
          },
          [](const SampledHistory &h, const FatigueConstants &c) {
            return crossland(SampledPath(h), c);
          },
          "Crossland 1956",
          "from memory"};
}

FatigueCriterion papadopoulos_row() {
  return {"Papadopoulos",
          std::string("mean square of the shear amplitude over all planes + a largest hydrostatic "
                      "stress, hard metals (0.577 <= t/f <= 0.8)") +
              reported,
          [](const HarmonicHistory &h, const FatigueConstants &c) {
            return papadopoulos(HarmonicPath(h), c);
          },
          [](const SampledHistory &h, const FatigueConstants &c) {
            return papadopoulos(SampledPath(h), c);
          },
          "Papadopoulos et al., Int. J. Fatigue 19 (1997)",
          "from memory"};
}

FatigueCriterion dang_van_row() {
  return {"Dang Van",
          std::string("largest shear round the settled state + a hydrostatic stress over the turn; "
                      "underrates phase-shifted bending and torsion (down to -18 % in the tests of "
                      "Nishihara and Kawamoto)") +
              reported,
          [](const HarmonicHistory &h, const FatigueConstants &c) {
            return dang_van(HarmonicPath(h), c);
          },
          [](const SampledHistory &h, const FatigueConstants &c) {
            return dang_van(SampledPath(h), c);
          },
          "Dang Van; Papadopoulos et al., Int. J. Fatigue 19 (1997)",
          "from memory"};
}

}  // namespace felloe
