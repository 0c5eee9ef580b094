// SPDX-License-Identifier: GPL-3.0-or-later
// Tops of the lower one of two smooth functions of planes: of one of them, or on the crest where
// both are equal; part of the plane kernels.
#pragma once
#include "post/detail/lane_search.h"

namespace felloe::detail {
namespace {

/// Values of both functions at a plane.
struct LowerOf {
  Lane first, second;
  FELLOE_INLINE Lane value() const { return smaller(first, second); }
};

struct LaneStep {
  Lane x, y;
};

/// Step onto the crest and along it to its top. On the top some mean of both slopes vanishes, and
/// curvatures count in that mean too.
FELLOE_INLINE LaneStep step_on_crest(const Paraboloid &a, const Paraboloid &b, Lane b_less_a) {
  const Lane dx = a.gx - b.gx, dy = a.gy - b.gy, squared = dx * dx + dy * dy + 1e-300;
  const Lane across_x = b_less_a / squared * dx, across_y = b_less_a / squared * dy;
  const Lane share = smaller(larger(-(b.gx * dx + b.gy * dy) / squared, all(0)), all(1));
  const auto mean = [&](Lane of_a, Lane of_b) __attribute__((always_inline)) {
    return of_b + share * (of_a - of_b);
  };
  const Lane xx = mean(a.xx, b.xx), yy = mean(a.yy, b.yy), xy = mean(a.xy, b.xy);
  const Lane gx = mean(a.gx, b.gx) + xx * across_x + xy * across_y;
  const Lane gy = mean(a.gy, b.gy) + xy * across_x + yy * across_y;
  const Lane curvature = dy * dy * xx - 2 * dx * dy * xy + dx * dx * yy;  // times squared
  const Lane along = (dx * gy - dy * gx) / (size(curvature) + 1e-300);
  return {across_x - along * dy, across_y + along * dx};
}

constexpr double furthest_pull = 0.15;  // rad, a little more than the grid's largest holes

/// A plane, or where the first function is the lower one of both, what lies uphill and is higher.
template <class Both, class Uphill>
FELLOE_INLINE BestPlane pulled(const Both &both, const Uphill &uphill, const Triple &n,
                               const LowerOf &here) {
  const BestPlane at{n, here.value()};
  Lane way;
  const Triple there = uphill(n, here, way);
  const Mask near = (here.first < here.second) & (way < furthest_pull);
  if (!any(near)) return at;
  const BestPlane up{there, both(there).value()};
  return choose(near & (up.value > at.value), up, at);
}

/// Nothing is known of the slopes.
struct StaysThere {
  FELLOE_INLINE Triple operator()(const Triple &n, const LowerOf &, Lane &way) const {
    way = all(huge);
    return n;
  }
};

/// towards_top() for the lower one of two functions. What lands beside the crest is pulled onto it.
template <class Both, class Uphill = StaysThere>
__attribute__((noinline)) BestPlane towards_crest(const Both &both, const BestPlane &centre,
                                                  Lane &step, const Uphill &uphill = {}) {
  Triple u, v;
  frame(centre.n, u, v);
  const LowerOf here = both(centre.n);
  BestPlane best = centre;
  Lane first[6], second[6];
  const Lane shorter_ray = 1.0 / root(1.0 + step * step);
#pragma GCC unroll 1
  for (int i = 0; i < 6; ++i) {
    BestPlane p;
    p.n = on_hexagon(i, centre.n, u, v, step, shorter_ray);
    const LowerOf f = both(p.n);
    p.value = f.value();
    first[i] = f.first;
    second[i] = f.second;
    best = choose(p.value > best.value, p, best);
  }
  Mask far = best.value > centre.value;
  const Paraboloid a(here.first, first), b(here.second, second);
  LaneStep trials[3];
  a.step_up(trials[0].x, trials[0].y);
  b.step_up(trials[1].x, trials[1].y);
  trials[2] = step_on_crest(a, b, here.second - here.first);
#pragma GCC unroll 1
  for (const LaneStep &t : trials) {
    const Lane length = root(t.x * t.x + t.y * t.y);
    const Lane shorter = (length > 2.0 ? 2.0 / (length + 1e-300) : all(1)) * step;
    BestPlane p;
    p.n = unit(sum(centre.n, shorter * t.x, u, shorter * t.y, v));
    p = pulled(both, uphill, p.n, both(p.n));
    const Mask higher = p.value > best.value;
    far = higher ? length > 1.0 : far;
    best = choose(higher, p, best);
  }
  step = far ? step : 0.2 * step;
  return best;
}

}  // namespace
}  // namespace felloe::detail
