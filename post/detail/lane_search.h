// SPDX-License-Identifier: GPL-3.0-or-later
// Largest value of a function over all planes for eight points at a time; part of the plane
// kernels.
//
// A function is called with one plane a point and a floor: where its value lies below the floor,
// any number between the value and the floor will do (a cheap upper bound).
#pragma once
#include "post/detail/lanes.h"

namespace felloe::detail {
namespace {

struct BestPlane {
  Triple n;
  Lane value;
};

FELLOE_INLINE BestPlane choose(Mask m, const BestPlane &yes, const BestPlane &no) {
  return {choose(m, yes.n, no.n), m ? yes.value : no.value};
}

constexpr double hexagon_x[6] = {1, 0.5, -0.5, -1, -0.5, 0.5};
constexpr double r3 = 0.8660254037844386;
constexpr double hexagon_y[6] = {0, r3, r3, 0, -r3, -r3};

/// The plane at the distance `step` [rad] along one of the six directions; `shorter` is what makes
/// it a unit vector, 1 / root(1 + step^2).
FELLOE_INLINE Triple on_hexagon(int i, const Triple &n, const Triple &u, const Triple &v, Lane step,
                                Lane shorter) {
  const Lane a = hexagon_x[i] * step * shorter, b = hexagon_y[i] * step * shorter;
  return {shorter * n.x + a * u.x + b * v.x, shorter * n.y + a * u.y + b * v.y,
          shorter * n.z + a * u.z + b * v.z};
}

template <class Value>
FELLOE_INLINE BestPlane tried(const Value &value, const Triple &n, const Triple &u, const Triple &v,
                              Lane a, Lane b) {
  BestPlane p;
  p.n = unit(sum(n, a, u, b, v));
  p.value = value(p.n, all(-huge));
  return p;
}

/// The paraboloid through a value and six round it: gradient and second derivatives in steps.
struct Paraboloid {
  Lane gx, gy, xx, yy, xy;

  FELLOE_INLINE Paraboloid(Lane centre, const Lane (&f)[6]) {
    const Lane p = f[0] - f[3], q = f[1] - f[4], r = f[2] - f[5];
    gx = (2 * p + q - r) / 6.0, gy = r3 / 3 * (q + r);
    const Lane twice = 2 * centre;
    const Lane a = f[0] + f[3] - twice, b = f[1] + f[4] - twice, c = f[2] + f[5] - twice;
    const Lane half_trace = (a + b + c) / 3.0, difference = (2 * a - b - c) / 3.0;
    xx = half_trace + difference, yy = half_trace - difference, xy = r3 * 2 / 3 * (b - c);
  }
  FELLOE_INLINE Lane determinant() const { return xx * yy - xy * xy; }
  FELLOE_INLINE Mask hill() const { return (determinant() > 0) & (xx + yy < 0); }

  /// Newton's step with the sizes of the curvatures, so that it climbs on saddles too: along a
  /// crest it goes on while it keeps to its middle. |H| t = tr H H + (|det| - det), t the sum of
  /// the sizes of both curvatures.
  FELLOE_INLINE void step_up(Lane &x, Lane &y) const {
    const Lane det = determinant(), both = size(det), trace = xx + yy, rest = both - det;
    const Lane t = root(trace * trace + 2 * rest);
    const Lane sx = trace * xx + rest, sy = trace * yy + rest, sxy = trace * xy;
    const Lane inverse = t / (both * t * t + 1e-300);
    x = (sy * gx - sxy * gy) * inverse;
    y = (sx * gy - sxy * gx) * inverse;
  }
};

/// One step to the top of the paraboloid through the plane and six round it at the distance
/// `step` [rad]. The step shrinks where the top lies within it.
template <class Value>
__attribute__((noinline)) BestPlane towards_top(const Value &value, const BestPlane &centre,
                                                Lane &step) {
  Triple u, v;
  frame(centre.n, u, v);
  BestPlane best = centre;
  Lane f[6];
  const Lane shorter_ray = 1.0 / root(1.0 + step * step);
#pragma GCC unroll 1
  for (int i = 0; i < 6; ++i) {
    BestPlane p;
    p.n = on_hexagon(i, centre.n, u, v, step, shorter_ray);
    p.value = value(p.n, all(-huge));
    f[i] = p.value;
    best = choose(p.value > best.value, p, best);
  }
  const Mask sample_is_best = best.value > centre.value;
  const Paraboloid fit(centre.value, f);
  const Mask hill = fit.hill();
  Lane x, y;
  fit.step_up(x, y);
  const Lane length = root(x * x + y * y);
  const Mask far = (length > 2.0) | ~hill;
  const Lane shorter = far ? 2.0 / (length + 1e-300) : all(1);
  const BestPlane top = tried(value, centre.n, u, v, shorter * x * step, shorter * y * step);
  const Mask top_is_best = top.value > best.value;
  const Mask moved_on = (top_is_best & ((length > 1.0) | ~hill)) | (sample_is_best & ~top_is_best);
  step = moved_on ? step : 0.2 * step;
  return choose(top_is_best, top, best);
}

/// Climbs in six directions a round, turned after every failure so that ridges (kinks of the
/// function) cannot stop it for good; level ridges end it after 300 rounds.
template <class Value>
__attribute__((noinline)) BestPlane climbed(const Value &value, BestPlane best, double first_step,
                                            double last_step) {
  // the turns' own cosine and sine: 0.618 rad a failure
  constexpr double turn_c = 0.8150451, turn_s = 0.5793921;
  Lane step = all(first_step), c = all(1), s = all(0);
  for (int round = 0; round < 300 && any(step > last_step); ++round) {
    Triple u, v;
    frame(best.n, u, v);
    BestPlane next = best;
#pragma GCC unroll 1
    for (int i = 0; i < 6; ++i) {
      const Lane x = step * (c * hexagon_x[i] - s * hexagon_y[i]);
      const Lane y = step * (s * hexagon_x[i] + c * hexagon_y[i]);
      const BestPlane p = tried(value, best.n, u, v, x, y);
      next = choose(p.value > next.value, p, next);
    }
    const Mask higher = (next.value > best.value) & (step > last_step);
    best = choose(higher, next, best);
    step = higher ? step : 0.55 * step;
    const Lane turned = c * turn_c - s * turn_s;
    s = higher ? s : s * turn_c + c * turn_s;
    c = higher ? c : turned;
  }
  return best;
}

/// Values on the grid, what does not qualify taken out.
struct Summits {
  Lane value[most_planes];
};

enum class Qualify { local_maxima, then_slopes };

/// Local maxima of the values that are not below the threshold; behind them, where slopes qualify,
/// the other planes not below it.
__attribute__((noinline)) inline void keep_summits(const Lane *values, Lane threshold,
                                                   const PlaneGrid &grid, Summits &summits,
                                                   Qualify which = Qualify::local_maxima) {
  for (int k = 0; k < grid.n; ++k) {
    Mask top = values[k] >= threshold;
    Lane otherwise = all(-huge);
    if (which == Qualify::then_slopes)
      otherwise = top ? values[k] - 4.0 * size(threshold) : otherwise;
    for (int i = 0; i < 6; ++i) top &= values[k] >= values[grid.neighbour[6 * k + i]];
    summits.value[k] = top ? values[k] : otherwise;
  }
}

// Along a great circle the functions are the larger of trigonometric polynomials of degree 2. By
// Bernstein's inequality a plane at the angle d beside the best one misses at most d^2 of the range
// of such a polynomial: in the grid's largest holes, 0.13 rad, 1.7 % of it.
template <class Value>
__attribute__((noinline)) void find_summits(const Value &value, const PlaneGrid &grid,
                                            Summits &summits,
                                            Qualify which = Qualify::local_maxima) {
  Lane highest = all(-huge), lowest = all(huge), floor = all(-huge), values[most_planes];
  int stride = 29;  // jumps about the sphere, so that the floor rises soon; a prime
  if (grid.n % stride == 0) stride = 1;
  for (int i = 0, k = 0; i < grid.n; ++i, k = (k + stride) % grid.n) {
    const double *n = grid.normal + 3 * k;
    values[k] = value(Triple{all(n[0]), all(n[1]), all(n[2])}, floor);
    highest = larger(highest, values[k]);
    lowest = smaller(lowest, values[k]);
    floor = highest > 0 ? 0.85 * highest : floor;
  }
  keep_summits(values, larger(floor, highest - 0.05 * (size(highest) + highest - lowest)), grid,
               summits, which);
}

/// Takes the highest summit of every point out of the list.
__attribute__((noinline)) inline BestPlane take_highest(const PlaneGrid &grid, Summits &summits) {
  BestPlane best{{all(0), all(0), all(1)}, all(-huge)};
  Lane place = all(-1);
  for (int k = 0; k < grid.n; ++k) {
    const Mask higher = summits.value[k] > best.value;
    best.value = higher ? summits.value[k] : best.value;
    place = higher ? all(k) : place;
  }
  for (int k = 0; k < grid.n; ++k) {
    const double *n = grid.normal + 3 * k;
    const Mask here = place == (double)k;
    best.n = choose(here, Triple{all(n[0]), all(n[1]), all(n[2])}, best.n);
    summits.value[k] = here ? -huge : summits.value[k];
  }
  return best;
}

constexpr double last_step = 5e-4;

/// Goes on to the top.
template <class Value>
FELLOE_INLINE BestPlane topped(const Value &value, BestPlane best, Lane step, int rounds) {
  for (int round = 0; round < rounds && any(step > last_step); ++round)
    best = towards_top(value, best, step);
  return best;
}

/// A summit that was climbed for some rounds.
struct Climb {
  BestPlane at;
  Lane step;
  Lane hope;  ///< what the top may have
};

constexpr int most_climbs = 16;

/// Of those that may still pass the best one the most hopeful is taken to its top, again and again.
template <class Step>
__attribute__((noinline)) BestPlane highest_top(const Step &up, Climb *climbs, int n, int rounds) {
  BestPlane best{{all(0), all(0), all(1)}, all(-huge)};
  for (int i = 0; i < n; ++i) best = choose(climbs[i].at.value > best.value, climbs[i].at, best);
  for (int turn = 0; turn < n; ++turn) {
    Climb next = climbs[0];
    Lane which = all(0);
    for (int i = 1; i < n; ++i) {
      const Mask more = climbs[i].hope > next.hope;
      next.at = choose(more, climbs[i].at, next.at);
      next.step = more ? climbs[i].step : next.step;
      next.hope = more ? climbs[i].hope : next.hope;
      which = more ? all(i) : which;
    }
    if (!any(next.hope > best.value) && turn > 0) break;
    for (int i = 0; i < n; ++i) climbs[i].hope = which == (double)i ? all(-huge) : climbs[i].hope;
    if (turn > 0) next.step = next.hope > best.value ? next.step : all(0);
    for (int round = 0; round < rounds && any(next.step > last_step); ++round)
      next.at = up(next.at, next.step);
    best = choose(next.at.value > best.value, next.at, best);
  }
  return best;
}

/// The largest value over all planes: the summits of the grid are climbed in the order of their
/// height, those that may be the highest one to their tops. Smooth tops are exact to 1e-8.
template <class From, class Step>
__attribute__((noinline)) BestPlane highest_of(const From &from, const Step &up,
                                               const PlaneGrid &grid, Summits &summits, int starts,
                                               int rounds, int last_rounds) {
  constexpr double first_step = 0.09;
  Climb climbs[most_climbs];
  int n = 0;
  for (; n < starts; ++n) {
    BestPlane next = take_highest(grid, summits);
    const Mask worth = next.value > -huge;
    if (n > 0 && !any(worth)) break;
    next = from(next.n);
    Climb &c = climbs[n];
    c.step = all(first_step);
    Lane before = next.value;
    for (int i = 0; i < rounds; ++i) {
      before = next.value;
      next = up(next, c.step);
    }
    c.at = next;
    c.at.value = worth ? next.value : all(-huge);
    c.hope = worth ? next.value + (next.value - before) + 3e-4 * size(next.value) : all(-huge);
  }
  return highest_top(up, climbs, n, last_rounds);
}

template <class Value>
__attribute__((noinline)) BestPlane highest_plane(const Value &value, const PlaneGrid &grid,
                                                  int starts) {
  Summits summits;
  find_summits(value, grid, summits);
  const auto from = [&](const Triple &n) __attribute__((always_inline)) {
    return BestPlane{n, value(n, all(-huge))};
  };
  const auto up = [&](const BestPlane &p, Lane &step) __attribute__((always_inline)) {
    return towards_top(value, p, step);
  };
  return highest_of(from, up, grid, summits, starts, 2, 16);
}

}  // namespace
}  // namespace felloe::detail
