// SPDX-License-Identifier: GPL-3.0-or-later
// The questions asked of planes; compiled once for each instruction set by the files
// plane_kernels_*.cc, therefore without a single header of the standard library.
#pragma once
#include "post/detail/lane_paths.h"
#include "post/detail/lane_search.h"

namespace felloe::detail {
namespace {

/// Slopes of the Haigh diagram after the FKM guideline, see fully_reversed_amplitude(): 0 for
/// R > 1, M for R <= 0, M / 3 for 0 < R <= 0.5, 0 above.
FELLOE_INLINE Lane fully_reversed(const LaneSwing &s, double m) {
  const double flat = (1 + m) / (1 + m / 3);
  const Lane steep = s.amplitude + m * larger(s.mean, -s.amplitude);
  const Lane gentle = flat * (s.amplitude + m / 3 * smaller(s.mean, 3 * s.amplitude));
  return s.mean <= s.amplitude ? steep : gentle;
}

/// Near a concave kink of the mean-stress correction (R = 0 or R = 0.5) tops are ridges, on which
/// paraboloids do not help.
FELLOE_INLINE bool near_ridge(const LaneSwing &s) {
  const Lane margin = 0.02 * s.amplitude;
  return any((size(s.mean - s.amplitude) < margin) | (size(s.mean - 3 * s.amplitude) < margin));
}

template <class Path>
FELLOE_INLINE BestPlane worst_normal(const Path &path, const PlaneGrid &grid, double m) {
  const auto value = [&](const Triple &n, Lane) __attribute__((always_inline)) {
    return fully_reversed(path.normal(n), m);
  };
  const BestPlane best = highest_plane(value, grid, 6);
  return near_ridge(path.normal(best.n)) ? climbed(value, best, 0.02, 1e-5) : best;
}

template <class Path>
FELLOE_INLINE BestPlane worst_sum(const Path &path, const PlaneGrid &grid, double weight) {
  const auto value = [&](const Triple &n, Lane floor) __attribute__((always_inline)) {
    return path.shear_and_normal(n, weight, floor);
  };
  return highest_plane(value, grid, 6);
}

/// Equals often form a continuum (a whole cone of planes); a small weight of the normal stress,
/// lowered step by step, finds the right one among them.
template <class Path>
FELLOE_INLINE BestPlane worst_shear(const Path &path, const PlaneGrid &grid) {
  double weight = 0.1;
  const auto value = [&](const Triple &n, Lane floor) __attribute__((always_inline)) {
    return path.shear_and_normal(n, weight, floor);
  };
  Triple n = highest_plane(value, grid, 4).n;
  for (weight = 1e-2; weight > 5e-6; weight *= 0.1)
    n = climbed(value, BestPlane{n, value(n, all(-huge))}, 0.05, 1e-6).n;
  weight = 1e-5;
  const BestPlane near{n, value(n, all(-huge))}, other = highest_plane(value, grid, 6);
  const BestPlane best = choose(other.value > near.value, other, near);
  return climbed(value, best, 3e-3, 1e-5);
}

template <class Path>
FELLOE_INLINE void answer(const Path &path, int which, const PlaneGrid &grid,
                          PlaneQuestion question, double weight, PlaneAnswers &answers) {
  BestPlane best;
  if (question == PlaneQuestion::normal_stress)
    best = worst_normal(path, grid, weight);
  else if (question == PlaneQuestion::shear_and_normal)
    best = worst_sum(path, grid, weight);
  else
    best = worst_shear(path, grid);
  const LaneSwing normal = path.normal(best.n);
  store(answers.normal[0], which, best.n.x);
  store(answers.normal[1], which, best.n.y);
  store(answers.normal[2], which, best.n.z);
  store(answers.value, which, best.value);
  store(answers.normal_amplitude, which, normal.amplitude);
  store(answers.normal_mean, which, normal.mean);
  store(answers.shear_amplitude, which, path.shear(best.n));
}

void answer_harmonic(const PlaneGrid &grid, PlaneQuestion question, double weight,
                     const EightValues *history, PlaneAnswers &answers) {
  for (int i = 0; i < registers; ++i)
    answer(HarmonicLanes(history, i), i, grid, question, weight, answers);
}

void answer_sampled(const PlaneGrid &grid, PlaneQuestion question, double weight,
                    const EightValues *states, int n_states, EightValues *scratch,
                    PlaneAnswers &answers) {
  for (int i = 0; i < registers; ++i)
    answer(SampledLanes(states, i, n_states, scratch), i, grid, question, weight, answers);
}

}  // namespace
}  // namespace felloe::detail
