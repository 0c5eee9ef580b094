// SPDX-License-Identifier: GPL-3.0-or-later
// Criteria that look for the worst plane: normal stress, Findley, Matake.
#include <algorithm>
#include <cmath>

#include "post/criteria_rows.h"
#include "post/plane_search.h"
#include "post/sn_curve.h"
#include "post/stress_path.h"

namespace felloe {
namespace {

template <class Path>
EquivalentStress normal_stress_plane(const Path &path, const FatigueConstants &constants) {
  if (!path.alternates()) return {};
  const double m = constants.mean_stress_sensitivity;
  const auto equivalent = [&](const Vec3 &n, double) {
    const Swing s = path.normal(n);
    return fully_reversed_amplitude(s.amplitude, s.mean, m);
  };
  const PlaneMaximum worst = maximum_over_planes(equivalent);
  const Swing s = path.normal(worst.normal);
  return {s.amplitude, s.mean, worst.value, worst.normal};
}

/// Shear amplitude, mean normal stress and equivalent amplitude on the governing plane. A negative
/// value (compression outweighs the shear) does no harm.
template <class Path>
EquivalentStress on_plane(const Path &path, const Vec3 &n, double value, double uniaxial) {
  return {path.shear_amplitude(n), path.normal(n).mean, std::max(0.0, value / uniaxial), n};
}

// max over planes (tau_a + k sn,max) <= F; k / sqrt(1 + k^2) = 2 t / f - 1. A fully reversed bar
// of amplitude s has the value s (k + sqrt(1 + k^2)) / 2.
template <class Path>
EquivalentStress findley(const Path &path, const FatigueConstants &constants) {
  if (!path.alternates()) return {};
  const double x = 2 * limit_ratio(constants) - 1, k = x / std::sqrt(1 - x * x);
  const auto value = [&](const Vec3 &n, double floor) {
    const double normal = k * path.normal(n).largest();
    return path.shear_amplitude(n, floor - normal) + normal;
  };
  const PlaneMaximum worst = maximum_over_planes(value);
  return on_plane(path, worst.normal, worst.value, 0.5 * (k + std::sqrt(1 + k * k)));
}

// On the plane of the largest shear amplitude, of equals the one with the largest normal stress:
// tau_a + mu sn,max <= t; mu = 2 t / f - 1. Equals often form a continuum (a whole cone of planes);
// a small weight of the normal stress, lowered step by step, finds the right one among them.
template <class Path>
EquivalentStress matake(const Path &path, const FatigueConstants &constants) {
  if (!path.alternates()) return {};
  const double mu = 2 * limit_ratio(constants) - 1, last_weight = 1e-5;
  const auto weighted = [&](double w) {
    return [&path, w](const Vec3 &n, double floor) {
      const double normal = w * path.normal(n).largest();
      return path.shear_amplitude(n, floor - normal) + normal;
    };
  };
  PlaneMaximum worst = maximum_over_planes(weighted(last_weight), 6);
  Vec3 n = maximum_over_planes(weighted(0.1)).normal;
  for (double w : {1e-2, 1e-3, 1e-4, last_weight})
    n = climb(weighted(w), {n, weighted(w)(n, no_floor)}, 0.05, 1e-6).normal;
  if (weighted(last_weight)(n, worst.value) > worst.value) worst.normal = n;
  const double value =
      path.shear_amplitude(worst.normal) + mu * path.normal(worst.normal).largest();
  return on_plane(path, worst.normal, value, 0.5 * (1 + mu));
}

}  // namespace

FatigueCriterion normal_stress_plane_row() {
  return {"normal stress plane",
          "largest fully reversed equivalent of the normal-stress amplitude over all planes, "
          "mean stress after FKM; underrates phase-shifted bending and torsion (down to -38 % in "
          "the tests of Nishihara and Kawamoto); best for brittle material and cut edges",
          [](const HarmonicHistory &h, const FatigueConstants &c) {
            return normal_stress_plane(HarmonicPath(h), c);
          },
          [](const SampledHistory &h, const FatigueConstants &c) {
            return normal_stress_plane(SampledPath(h), c);
          },
          "definition common practice; mean stress FKM guideline",
          "from memory"};
}

FatigueCriterion findley_row() {
  return {
      "Findley",
      "largest shear amplitude + k largest normal stress over all planes; amplitude reported: "
      "shear amplitude, mean: mean normal stress of that plane; counts a high static tension "
      "even where little alternates",
      [](const HarmonicHistory &h, const FatigueConstants &c) {
        return findley(HarmonicPath(h), c);
      },
      [](const SampledHistory &h, const FatigueConstants &c) { return findley(SampledPath(h), c); },
      "Findley 1959; Socie and Marquis, Multiaxial Fatigue",
      "from memory"};
}

FatigueCriterion matake_row() {
  return {
      "Matake",
      "shear amplitude + mu largest normal stress on the plane of the largest shear amplitude; "
      "amplitude reported: shear amplitude, mean: mean normal stress of that plane",
      [](const HarmonicHistory &h, const FatigueConstants &c) {
        return matake(HarmonicPath(h), c);
      },
      [](const SampledHistory &h, const FatigueConstants &c) { return matake(SampledPath(h), c); },
      "Matake 1977",
      "from memory"};
}

}  // namespace felloe
