// SPDX-License-Identifier: GPL-3.0-or-later
// Radius of the smallest circle round a path, for eight paths at a time; part of the plane kernels.
#pragma once
#include "post/detail/lanes.h"

namespace felloe::detail {
namespace {

struct LanePoint {
  Lane x, y;
};

FELLOE_INLINE LanePoint choose(Mask m, const LanePoint &yes, const LanePoint &no) {
  return {m ? yes.x : no.x, m ? yes.y : no.y};
}
FELLOE_INLINE Lane squared_distance(const LanePoint &a, const LanePoint &b) {
  const Lane x = a.x - b.x, y = a.y - b.y;
  return x * x + y * y;
}

struct LaneCircle {
  LanePoint centre;
  Lane squared;  ///< radius
};

/// The three points that hold the circle; two of them may be one.
struct Support {
  LanePoint at[3];
};

/// Farthest point of the path from a centre; its squared distance.
FELLOE_INLINE Lane farthest(const Lane *path, int n, const LanePoint &centre, LanePoint &point) {
  Lane most = all(-1);
  for (int i = 0; i < n; ++i) {
    const LanePoint p{path[2 * i], path[2 * i + 1]};
    const Lane d = squared_distance(p, centre);
    const Mask further = d > most;
    most = further ? d : most;
    point = choose(further, p, point);
  }
  return most;
}

constexpr double slack = 1 + 1e-10;

FELLOE_INLINE LaneCircle round_two(const LanePoint &a, const LanePoint &b) {
  return {{0.5 * (a.x + b.x), 0.5 * (a.y + b.y)}, 0.25 * squared_distance(a, b)};
}

/// Through three points; the radius is huge where they lie on a line.
FELLOE_INLINE LaneCircle round_three(const LanePoint &a, const LanePoint &b, const LanePoint &c) {
  const Lane bx = b.x - a.x, by = b.y - a.y, cx = c.x - a.x, cy = c.y - a.y;
  const Lane bb = bx * bx + by * by, cc = cx * cx + cy * cy;
  const Lane twice_area = bx * cy - by * cx;
  const Mask flat = size(twice_area) <= 1e-12 * (bb + cc);
  const Lane inverse = 0.5 / (flat ? all(1) : twice_area);
  const Lane x = (cy * bb - by * cc) * inverse, y = (bx * cc - cx * bb) * inverse;
  return {{a.x + x, a.y + y}, flat ? all(huge) : x * x + y * y};
}

/// Takes the trial where it holds the points p and q and is smaller.
FELLOE_INLINE void prefer(LaneCircle &best, Support &held, const LaneCircle &trial,
                          const LanePoint &p, const LanePoint &q, const Support &its) {
  const Lane limit = trial.squared * slack;
  const Mask better = (trial.squared < best.squared) &
                      (squared_distance(p, trial.centre) <= limit) &
                      (squared_distance(q, trial.centre) <= limit);
  best.centre = choose(better, trial.centre, best.centre);
  best.squared = better ? trial.squared : best.squared;
  for (int i = 0; i < 3; ++i) held.at[i] = choose(better, its.at[i], held.at[i]);
}

/// Smallest circle round the support and a further point, which lies on it.
__attribute__((noinline)) inline LaneCircle with(const LanePoint &p, Support &support) {
  const LanePoint a = support.at[0], b = support.at[1], c = support.at[2];
  LaneCircle best{{all(0), all(0)}, all(huge)};
  Support held = support;
  prefer(best, held, round_two(p, a), b, c, {{p, a, a}});
  prefer(best, held, round_two(p, b), a, c, {{p, b, b}});
  prefer(best, held, round_two(p, c), a, b, {{p, c, c}});
  prefer(best, held, round_three(p, a, b), c, c, {{p, a, b}});
  prefer(best, held, round_three(p, a, c), b, b, {{p, a, c}});
  prefer(best, held, round_three(p, b, c), a, a, {{p, b, c}});
  support = held;
  return best;
}

/// Radius of the smallest circle round all points, to 1e-10 of its square, or where it is below the
/// floor an upper bound that is not above the floor. The circle of a few points grows until it
/// holds everything: the farthest point joins, those inside leave. The support is set where the
/// floor is not in the way.
__attribute__((noinline)) inline Lane smallest_circle(const Lane *path, int n,
                                                      const LanePoint &middle, const Lane &floor,
                                                      Support &support) {
  LanePoint first = middle, second = middle;
  const Lane bound = root(farthest(path, n, middle, first));
  if (!any(bound > floor)) return bound;
  farthest(path, n, first, second);
  LaneCircle circle = round_two(first, second);
  support = {{first, second, second}};
  Mask done{};
  Lane squared = circle.squared;
  for (int round = 0; round < 200; ++round) {
    LanePoint next = first;
    const Lane distance = farthest(path, n, circle.centre, next);
    const Mask held = distance <= circle.squared * slack;
    Support grown = support;
    const LaneCircle larger_one = with(next, grown);
    // No growth left within rounding: the present centre with the farthest point's distance.
    const Mask stuck = ~(larger_one.squared > circle.squared) | (larger_one.squared >= huge);
    squared = done ? squared : (held ? circle.squared : distance);
    done |= held | stuck;
    if (!any(~done)) break;
    circle.centre = choose(done, circle.centre, larger_one.centre);
    circle.squared = done ? circle.squared : larger_one.squared;
    for (int i = 0; i < 3; ++i) support.at[i] = choose(done, support.at[i], grown.at[i]);
  }
  return root(squared);
}

}  // namespace
}  // namespace felloe::detail
