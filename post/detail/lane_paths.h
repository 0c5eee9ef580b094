// SPDX-License-Identifier: GPL-3.0-or-later
// What a plane feels during a turn, for eight points at a time; part of the plane kernels.
#pragma once
#include "post/detail/lane_circle.h"
#include "post/detail/lanes.h"

namespace felloe::detail {
namespace {

/// Amplitude (half range) and mean (mid range) over the turn.
struct LaneSwing {
  Lane amplitude, mean;
  FELLOE_INLINE Lane largest() const { return mean + amplitude; }
};

/// p . stress . q as weights of the components xx yy zz xy yz zx.
struct Weights {
  Lane of[6];
  FELLOE_INLINE Weights(const Triple &p, const Triple &q)
      : of{p.x * q.x,
           p.y * q.y,
           p.z * q.z,
           p.x * q.y + p.y * q.x,
           p.y * q.z + p.z * q.y,
           p.z * q.x + p.x * q.z} {}
  template <int r = registers>
  FELLOE_INLINE Lane component(const Lane *s) const {
    return of[0] * s[0] + of[1] * s[r] + of[2] * s[2 * r] +
           (of[3] * s[3 * r] + of[4] * s[4 * r] + of[5] * s[5 * r]);
  }
};

/// stress . n; components lie r lanes apart.
template <int r = registers>
FELLOE_INLINE Triple traction(const Lane *s, const Triple &n) {
  return {s[0] * n.x + s[3 * r] * n.y + s[5 * r] * n.z,
          s[3 * r] * n.x + s[r] * n.y + s[4 * r] * n.z,
          s[5 * r] * n.x + s[4 * r] * n.y + s[2 * r] * n.z};
}

/// mean + cosine cos(phi) + sine sin(phi): every scalar swings by sqrt(c^2 + s^2), every vector
/// runs on an ellipse.
class HarmonicLanes {
 public:
  FELLOE_INLINE HarmonicLanes(const EightValues *history, int which)
      : mean_(lanes(history, which)),
        cosine_(mean_ + 6 * registers),
        sine_(cosine_ + 6 * registers) {}

  FELLOE_INLINE LaneSwing normal(const Triple &n) const {
    const Weights w(n, n);
    const Lane c = w.component(cosine_), s = w.component(sine_);
    return {root(c * c + s * s), w.component(mean_)};
  }

  /// Larger half axis of the ellipse of the shear vector: half the sum of the roots of
  /// c.c + s.s +- 2 n.(c x s).
  FELLOE_INLINE Lane shear(const Triple &n) const {
    const Triple c = traction(cosine_, n), s = traction(sine_, n);
    return shear(n, c, s, product(c, n), product(s, n));
  }

  /// Direction of the larger half axis: the plane square to it feels about the same shear, exactly
  /// where the history is proportional.
  FELLOE_INLINE Triple shear_direction(const Triple &n) const {
    Triple u, v;
    frame(n, u, v);
    const Triple c = traction(cosine_, n), s = traction(sine_, n);
    const Lane cu = product(c, u), cv = product(c, v), su = product(s, u), sv = product(s, v);
    const Lane uu = cu * cu + su * su, vv = cv * cv + sv * sv, uv = cu * cv + su * sv;
    const Lane half = 0.5 * (uu - vv), more = size(half) + root(half * half + uv * uv) + 1e-300;
    const Mask along_u = half >= 0;
    return unit(sum({all(0), all(0), all(0)}, along_u ? more : uv, u, along_u ? uv : more, v));
  }

  /// Where the normal stress that swings has the same size on the other side of the planes on which
  /// it vanishes: for a proportional history they are a valley of its amplitude.
  FELLOE_INLINE Triple beyond_normal_valley(const Triple &n) const {
    const Triple c = traction(cosine_, n), s = traction(sine_, n);
    const Lane cn = product(c, n), sn = product(s, n);
    const Lane amplitude = root(cn * cn + sn * sn);
    const Triple t = detail::sum({all(0), all(0), all(0)}, cn, c, sn, s);  // times amplitude
    const Lane tn = product(t, n);
    const Triple shear = detail::sum(t, -tn, n, all(0), n);
    // the normal stress falls by twice the shear stress a radian
    const Lane way = amplitude * amplitude / (product(shear, shear) + 1e-300);
    const Lane kept = smaller(way, 0.4 / (root(product(shear, shear)) + 1e-300));
    return unit(detail::sum(n, -kept, shear, all(0), n));
  }

  /// Nearby may be a plane on which the shear vanishes or nearly does: the plane turned about that
  /// one, by an angle with this cosine and sine.
  FELLOE_INLINE Triple round_shear_valley(const Triple &n, double cosine, double sine) const {
    Triple u, v;
    frame(n, u, v);
    // the shear changes linearly with the turn (a, b) about n: least squares for none of it
    Lane aa = all(1e-300), ab = all(0), bb = all(1e-300), ar = all(0), br = all(0);
    const Lane *const swinging[2] = {cosine_, sine_};
    for (const Lane *const stress : swinging) {
      const Triple tn = traction(stress, n), tu = traction(stress, u), tv = traction(stress, v);
      const Lane nn = product(tn, n), uv = product(tu, v);
      const Lane uu = product(tu, u) - nn, vv = product(tv, v) - nn;
      const Lane x = product(tn, u), y = product(tn, v);
      aa += uu * uu + uv * uv;
      ab += uv * (uu + vv);
      bb += uv * uv + vv * vv;
      ar += uu * x + uv * y;
      br += uv * x + vv * y;
    }
    const Lane inverse = 1.0 / (aa * bb - ab * ab + 1e-9 * aa * bb);
    const Lane a = -(bb * ar - ab * br) * inverse, b = -(aa * br - ab * ar) * inverse;
    const Lane kept = smaller(all(1), 0.25 / (root(a * a + b * b) + 1e-300));
    const Lane x = kept * (a - cosine * a + sine * b), y = kept * (b - sine * a - cosine * b);
    return unit(detail::sum(n, x, u, y, v));
  }

  /// The way uphill [rad] to a plane with so much more static normal stress, or the plane with the
  /// most of it in that direction.
  FELLOE_INLINE Triple towards_static_tension(const Triple &n, Lane more, Lane &way) const {
    const Triple t = traction(mean_, n);
    const Lane here = product(t, n);
    const Triple shear = detail::sum(t, -here, n, all(0), n);
    const Lane slope = root(product(shear, shear)) + 1e-300;
    const Triple g{shear.x / slope, shear.y / slope, shear.z / slope};
    // along the way: here + 2 slope way + (there - here) way^2
    const Lane bend = Weights(g, g).component(mean_) - here, squared = slope * slope + bend * more;
    way = squared > 0 ? more / (slope + safe_root(squared)) : slope / size(bend);
    return unit(detail::sum(n, way, g, all(0), g));
  }

  /// A sum of shear amplitude and normal stress.
  template <class Sum>
  FELLOE_INLINE auto of(const Triple &n, const Sum &sum, Lane) const {
    const Triple c = traction(cosine_, n), s = traction(sine_, n);
    const Lane cn = product(c, n), sn = product(s, n);
    return sum(shear(n, c, s, cn, sn),
               LaneSwing{root(cn * cn + sn * sn), Weights(n, n).component(mean_)});
  }

 private:
  static FELLOE_INLINE Lane shear(const Triple &n, const Triple &c, const Triple &s, Lane cn,
                                  Lane sn) {
    const Lane both = product(c, c) + product(s, s) - cn * cn - sn * sn;
    const Lane area = n.x * (c.y * s.z - c.z * s.y) + n.y * (c.z * s.x - c.x * s.z) +
                      n.z * (c.x * s.y - c.y * s.x);
    return 0.5 * (safe_root(both + 2.0 * area) + safe_root(both - 2.0 * area));
  }

  const Lane *mean_, *cosine_, *sine_;
};

/// What a plane feels of the few states that decide what another plane feels of all states: the
/// three that hold the circle round the shear path, those of the highest and lowest normal stress.
/// Smooth near that plane, the same there, and never more than what is felt of all states.
class DecidingStates {
 public:
  Lane highest[6], lowest[6];     ///< of the normal stress
  Lane b_less_a[6], c_less_a[6];  ///< of those that hold the circle

  template <class Sum>
  FELLOE_INLINE auto of(const Triple &n, const Sum &sum) const {
    const Weights nn(n, n);
    const Lane high = nn.component<1>(highest), low = nn.component<1>(lowest);
    return sum(shear(n), LaneSwing{0.5 * (high - low), 0.5 * (high + low)});
  }

 private:
  /// Radius of the smallest circle round three points: half the longest side of an obtuse triangle,
  /// else sides' product / (4 area).
  FELLOE_INLINE Lane shear(const Triple &n) const {
    const Triple b = traction<1>(b_less_a, n), c = traction<1>(c_less_a, n);
    const Lane bn = product(b, n), cn = product(c, n);
    const Lane bb = product(b, b) - bn * bn, cc = product(c, c) - cn * cn;
    const Lane a = bb + cc - 2.0 * (product(b, c) - bn * cn);
    const Lane longest = larger(a, larger(bb, cc));
    const Mask obtuse = longest >= a + bb + cc - longest;
    const Lane area = n.x * (b.y * c.z - b.z * c.y) + n.y * (b.z * c.x - b.x * c.z) +
                      n.z * (b.x * c.y - b.y * c.x);
    return 0.5 * safe_root(obtuse ? longest : a * bb * cc / (area * area));
  }
};

/// States given one by one.
class SampledLanes {
 public:
  FELLOE_INLINE SampledLanes(const EightValues *states, int which, int n_states,
                             EightValues *scratch)
      : s_(lanes(states, which)), n_(n_states), path_(reinterpret_cast<Lane *>(scratch)) {}

  FELLOE_INLINE LaneSwing normal(const Triple &n) const {
    const Weights w(n, n);
    Lane low = all(huge), high = all(-huge);
    for (int i = 0; i < n_; ++i) {
      const Lane x = w.component(state(i));
      low = smaller(low, x);
      high = larger(high, x);
    }
    return {0.5 * (high - low), 0.5 * (high + low)};
  }

  /// Radius of the smallest circle round the path of the shear vector.
  FELLOE_INLINE Lane shear(const Triple &n) const {
    LaneSwing normal;
    const Box box = project(n, normal);
    return radius(box, all(-huge));
  }

  /// A sum that grows with the shear amplitude and has a part of normal stress that does too.
  template <class Sum>
  FELLOE_INLINE Lane of(const Triple &n, const Sum &sum, Lane floor) const {
    LaneSwing normal;
    const Box box = project(n, normal);
    const Lane around = box.half_diagonal(), bound = sum(around, normal);
    if (!any(bound > floor)) return bound;
    return sum(radius(box, floor - (bound - around)), normal);
  }

  /// The states that decide at a plane.
  __attribute__((noinline)) DecidingStates deciding(const Triple &n) const {
    LaneSwing normal;
    const Box box = project(n, normal);
    Support hold;
    smallest_circle(path_, n_, box.middle(), all(-huge), hold);
    const Weights nn(n, n);
    Lane low = all(huge), high = all(-huge);
    Mask lowest{}, highest{}, held[3]{};
    for (int i = 0; i < n_; ++i) {
      const Mask here = Mask{} + i;
      const Lane z = nn.component(state(i)), x = path_[2 * i], y = path_[2 * i + 1];
      lowest = z < low ? here : lowest;
      highest = z > high ? here : highest;
      low = smaller(low, z);
      high = larger(high, z);
      for (int k = 0; k < 3; ++k)
        held[k] = (x == hold.at[k].x) & (y == hold.at[k].y) ? here : held[k];
    }
    DecidingStates d;
    for (int k = 0; k < 6; ++k) {
      const Lane a = gathered(held[0], k);
      d.highest[k] = gathered(highest, k);
      d.lowest[k] = gathered(lowest, k);
      d.b_less_a[k] = gathered(held[1], k) - a;
      d.c_less_a[k] = gathered(held[2], k) - a;
    }
    return d;
  }

 private:
  /// A component of another state in each lane.
  FELLOE_INLINE Lane gathered(Mask which, int component) const {
    Lane values{};
    for (int lane = 0; lane < n_lanes_here; ++lane)
      values[lane] = state(static_cast<int>(which[lane]))[registers * component][lane];
    return values;
  }

  FELLOE_INLINE const Lane *state(int i) const { return s_ + 6L * registers * i; }

  /// Round the path in the plane.
  struct Box {
    Lane low_x, high_x, low_y, high_y;
    FELLOE_INLINE Lane half_diagonal() const {
      const Lane x = high_x - low_x, y = high_y - low_y;
      return 0.5 * root(x * x + y * y);
    }
    FELLOE_INLINE LanePoint middle() const {
      return {0.5 * (low_x + high_x), 0.5 * (low_y + high_y)};
    }
  };

  /// Writes the path of the shear vector.
  FELLOE_INLINE Box project(const Triple &n, LaneSwing &normal) const {
    Triple u, v;
    frame(n, u, v);
    const Weights nn(n, n), un(u, n), vn(v, n);
    Box b{all(huge), all(-huge), all(huge), all(-huge)};
    Lane low = all(huge), high = all(-huge);
    for (int i = 0; i < n_; ++i) {
      const Lane x = un.component(state(i)), y = vn.component(state(i));
      const Lane z = nn.component(state(i));
      low = smaller(low, z);
      high = larger(high, z);
      b = {smaller(b.low_x, x), larger(b.high_x, x), smaller(b.low_y, y), larger(b.high_y, y)};
      path_[2 * i] = x;
      path_[2 * i + 1] = y;
    }
    normal = {0.5 * (high - low), 0.5 * (high + low)};
    return b;
  }

  FELLOE_INLINE Lane radius(const Box &b, Lane floor) const {
    const Lane around = b.half_diagonal();
    if (!any(around > floor)) return around;
    Support support;
    return smallest_circle(path_, n_, b.middle(), floor, support);
  }

  const Lane *s_;
  int n_;
  Lane *path_;
};

}  // namespace
}  // namespace felloe::detail
