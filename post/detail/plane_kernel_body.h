// SPDX-License-Identifier: GPL-3.0-or-later
// The questions asked of planes; compiled once for each instruction set by the files
// plane_kernels_*.cc, therefore without a single header of the standard library.
#pragma once
#include "post/detail/lane_findley.h"
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

/// Any rule, asked for all points at once outside of the kernels.
template <class Path>
FELLOE_INLINE BestPlane worst_by_rule(const Path &path, const PlaneGrid &grid,
                                      const PlaneSearch &search) {
  const auto value = [&](const Triple &n, Lane) __attribute__((always_inline)) {
    const LaneSwing s = path.normal(n);
    Lane equivalent;
    search.rule(reinterpret_cast<const double *>(&s.amplitude),
                reinterpret_cast<const double *>(&s.mean), reinterpret_cast<double *>(&equivalent),
                n_lanes_here, search.constants);
    return equivalent;
  };
  return highest_plane(value, grid, 6);
}

/// Goes on to the top of what the states that decide at the plane make other planes feel.
template <class Sum>
__attribute__((noinline)) BestPlane topped_by(const DecidingStates &deciding, const Sum &sum,
                                              const Triple &n, double first_step, int rounds) {
  constexpr double last_step = 1e-4;
  Lane step = all(first_step);
  BestPlane best{n, deciding.of(n, sum)};
  for (int round = 0; round < rounds && any(step > last_step); ++round)
    if constexpr (Sum::has_crests) {
      best = towards_crest(
          [&](const Triple &m) __attribute__((always_inline)) {
            return deciding.of(
                m, [&](Lane tau, const LaneSwing &s)
                       __attribute__((always_inline)) { return sum.both(tau, s); });
          },
          best, step);
    } else {
      best = towards_top(
          [&](const Triple &m, Lane) __attribute__((always_inline)) { return deciding.of(m, sum); },
          best, step);
    }
  return best;
}

/// Climbs by the states that decide, chosen anew on every top. What few states give is never more
/// than what all give, so that the value rises from top to top.
template <class Sum>
__attribute__((noinline)) BestPlane climbed_by_states(const SampledLanes &path, const Sum &sum,
                                                      const Triple &from, int changes, int rounds) {
  constexpr double equal = 1e-13;
  BestPlane best{from, all(-huge)};
  for (int change = 0; change < changes; ++change) {
    const BestPlane p = topped_by(path.deciding(best.n), sum, best.n, 0.04, rounds);
    const Mask higher = p.value > best.value;
    const Mask much = p.value > best.value + equal * size(p.value);
    best = choose(higher, p, best);
    if (!any(much)) break;
  }
  return best;
}

/// Climbs from planes on rings round the best one: summits of other states lie a few degrees beside
/// it, behind a valley (as the load rolls by, every position makes one).
template <class Sum>
__attribute__((noinline)) BestPlane highest_beside(const SampledLanes &path, const Sum &sum,
                                                   BestPlane best) {
  for (int round = 0; round < 4; ++round) {
    best = climbed_by_states(path, sum, best.n, 12, 12);
    Triple u, v;
    frame(best.n, u, v);
    BestPlane next = best;
    for (double radius = 0.16; radius > 0.015; radius *= 0.5)
#pragma GCC unroll 1
      for (int i = 0; i < 6; ++i) {
        const Triple n = unit(felloe::detail::sum(best.n, all(radius * hexagon_x[i]), u,
                                                  all(radius * hexagon_y[i]), v));
        const BestPlane p = climbed_by_states(path, sum, n, 1, 4);
        next = choose(p.value > next.value, p, next);
      }
    if (!any(next.value > best.value + 1e-12 * size(best.value))) return best;
    best = next;
  }
  return climbed_by_states(path, sum, best.n, 12, 12);
}

/// States one by one make the sum the largest of many smooth functions, one of each few states.
/// Where two of them meet is a valley, so that every summit is one of a single function, but
/// summits may lie closer together than the planes of the grid: slopes are climbed too.
template <class Sum>
FELLOE_INLINE BestPlane worst_sum(const SampledLanes &path, const PlaneGrid &grid, const Sum &sum) {
  constexpr int most_starts = 12;
  const auto value = [&](const Triple &n, Lane floor) __attribute__((always_inline)) {
    return path.of(n, sum, floor);
  };
  Summits summits;
  find_summits(value, grid, summits, Qualify::then_slopes);
  BestPlane next = take_highest(grid, summits), best{next.n, all(-huge)};
  for (int start = 0; start < most_starts; ++start) {
    const Mask worth = next.value > -huge;
    if (!any(worth)) break;
    next = climbed_by_states(path, sum, choose(worth, next.n, best.n), 2, 3);
    best = choose(next.value > best.value, next, best);
    next = take_highest(grid, summits);
  }
  best = highest_beside(path, sum, best);
  return {best.n, value(best.n, all(-huge))};
}

/// Of equals the plane with the largest normal stress, by a weight of it that is too small to count
/// otherwise; smaller where static stress is large beside what alternates.
constexpr double tie_break = 1e-5;

/// Summits of the shear amplitude, those with more normal stress a little higher: of equals, which
/// often form a continuum (a whole cone of planes), the search starts at the right ones.
/// @return  the weight of the normal stress that breaks ties
__attribute__((noinline)) inline Lane shear_summits(const HarmonicLanes &path,
                                                    const PlaneGrid &grid, Summits &summits) {
  constexpr double preference = 0.03;  // of the largest shear amplitude, over all normal stresses
  Lane shear[most_planes], normal[most_planes];
  Lane most_shear = all(0), low = all(huge), high = all(-huge);
  for (int k = 0; k < grid.n; ++k) {
    const double *n = grid.normal + 3 * k;
    path.of(
        Triple{all(n[0]), all(n[1]), all(n[2])},
        [&](Lane tau, const LaneSwing &sigma) __attribute__((always_inline)) {
          shear[k] = tau;
          normal[k] = sigma.largest();
          return tau;
        },
        all(-huge));
    most_shear = larger(most_shear, shear[k]);
    low = smaller(low, normal[k]);
    high = larger(high, normal[k]);
  }
  const Lane weight = preference * most_shear / (high - low + 1e-300);
  Lane highest = all(-huge);
  for (int k = 0; k < grid.n; ++k) {
    shear[k] += weight * normal[k];
    highest = larger(highest, shear[k]);
  }
  keep_summits(shear, highest - (0.05 + preference) * most_shear, grid, summits);
  return tie_break * smaller(all(1), 3 / preference * weight);
}

FELLOE_INLINE BestPlane worst_shear(const HarmonicLanes &path, const PlaneGrid &grid) {
  Summits summits;
  const Lane weight = shear_summits(path, grid, summits);
  const auto value = [&](const Triple &n, Lane floor) __attribute__((always_inline)) {
    return path.of(
        n,
        [&](Lane tau, const LaneSwing &s)
            __attribute__((always_inline)) { return tau + weight * s.largest(); },
        floor);
  };
  const auto from = [&](const Triple &n) __attribute__((always_inline)) {
    return BestPlane{n, value(n, all(-huge))};
  };
  const auto up = [&](const BestPlane &p, Lane &step) __attribute__((always_inline)) {
    return towards_top(value, p, step);
  };
  const BestPlane best = highest_of(from, up, grid, summits, 4, 3, 40);
  BestPlane other;
  other.n = path.shear_direction(best.n);
  other.value = value(other.n, all(-huge));
  other = topped(value, other, all(0.02), 20);
  return choose(other.value > best.value, other, best);
}

/// States one by one make kinks everywhere: the weight is lowered step by step. Another plane may
/// have more shear: it is looked for with the last weight.
FELLOE_INLINE BestPlane worst_shear(const SampledLanes &path, const PlaneGrid &grid) {
  ShearAndNormal sum{0.1};
  const auto value = [&](const Triple &n, Lane floor) __attribute__((always_inline)) {
    return path.of(n, sum, floor);
  };
  Triple n = highest_plane(value, grid, 4).n;
  for (sum.weight = 1e-2; sum.weight > 0.5 * tie_break; sum.weight *= 0.1)
    n = climbed(value, BestPlane{n, value(n, all(-huge))}, 0.05, 1e-6).n;
  sum.weight = tie_break;
  const BestPlane near{n, value(n, all(-huge))}, other = highest_plane(value, grid, 6);
  const BestPlane best = choose(other.value > near.value, other, near);
  return climbed(value, best, 3e-3, 1e-5);
}

/// What a register of points feels on planes of which `value` is known.
template <class Path>
FELLOE_INLINE void answer(const Path &path, int which, const BestPlane &best,
                          PlaneAnswers &answers) {
  const LaneSwing normal = path.normal(best.n);
  store(answers.normal[0], which, best.n.x);
  store(answers.normal[1], which, best.n.y);
  store(answers.normal[2], which, best.n.z);
  store(answers.value, which, best.value);
  store(answers.normal_amplitude, which, normal.amplitude);
  store(answers.normal_mean, which, normal.mean);
  store(answers.shear_amplitude, which, path.shear(best.n));
}

template <class Path>
FELLOE_INLINE BestPlane worst(const Path &path, const PlaneGrid &grid, const PlaneSearch &search) {
  if (search.question == PlaneQuestion::normal_stress)
    return worst_normal(path, grid, search.weight);
  if (search.question == PlaneQuestion::normal_stress_by_rule)
    return worst_by_rule(path, grid, search);
  return worst_shear(path, grid);
}

void answer_sums(const PlaneSearch &search, const EightValues *histories, int n_points,
                 PlaneAnswers *answers) {
  PointList points;
  for (int i = 0; i < n_points; ++i) points.add(i);
  HighestPlane found[points_a_call];
  if (search.question == PlaneQuestion::shear_and_normal)
    findley_planes(histories, points, {search.weight}, found);
  else
    limited_findley_planes(histories, points, {search.weight}, found);
  for (int first = 0; first < n_points; first += points_at_once) {
    EightNormals normals;
    EightValues value;
    for (int i = 0; i < points_at_once; ++i) {
      const HighestPlane &p = found[first + i < n_points ? first + i : n_points - 1];
      normals.put(i, p.n);
      value.of[i] = p.value;
    }
    for (int r = 0; r < registers; ++r)
      answer(HarmonicLanes(histories + 18L * (first / points_at_once), r), r,
             {normals.lanes_of(r), *lanes(&value, r)}, answers[first / points_at_once]);
  }
}

void answer_harmonic(const PlaneSearch &search, const EightValues *histories, int n_points,
                     PlaneAnswers *answers) {
  if (search.question == PlaneQuestion::shear_and_normal ||
      search.question == PlaneQuestion::shear_and_limited_normal)
    return answer_sums(search, histories, n_points, answers);
  for (int e = 0; points_at_once * e < n_points; ++e)
    for (int r = 0; r < registers; ++r) {
      const HarmonicLanes path(histories + 18L * e, r);
      answer(path, r, worst(path, plane_grid(), search), answers[e]);
    }
}

void answer_sampled(const PlaneSearch &search, const EightValues *states, int n_states,
                    EightValues *scratch, PlaneAnswers &answers) {
  const PlaneGrid &grid = plane_grid();
  for (int r = 0; r < registers; ++r) {
    const SampledLanes path(states, r, n_states, scratch);
    if (search.question == PlaneQuestion::shear_and_normal)
      answer(path, r, worst_sum(path, grid, ShearAndNormal{search.weight}), answers);
    else if (search.question == PlaneQuestion::shear_and_limited_normal)
      answer(path, r, worst_sum(path, grid, ShearAndLimitedNormal{search.weight}), answers);
    else
      answer(path, r, worst(path, grid, search), answers);
  }
}

}  // namespace
}  // namespace felloe::detail
