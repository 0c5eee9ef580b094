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
  FELLOE_INLINE Lane component(const Lane *s) const {
    constexpr int r = registers;
    return of[0] * s[0] + of[1] * s[r] + of[2] * s[2 * r] +
           (of[3] * s[3 * r] + of[4] * s[4 * r] + of[5] * s[5 * r]);
  }
};

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

  /// A sum of shear amplitude and normal stress.
  template <class Sum>
  FELLOE_INLINE Lane of(const Triple &n, const Sum &sum, Lane) const {
    const Triple c = traction(cosine_, n), s = traction(sine_, n);
    const Lane cn = product(c, n), sn = product(s, n);
    return sum(shear(n, c, s, cn, sn),
               LaneSwing{root(cn * cn + sn * sn), Weights(n, n).component(mean_)});
  }

 private:
  static FELLOE_INLINE Triple traction(const Lane *s, const Triple &n) {
    constexpr int r = registers;
    return {s[0] * n.x + s[3 * r] * n.y + s[5 * r] * n.z,
            s[3 * r] * n.x + s[r] * n.y + s[4 * r] * n.z,
            s[5 * r] * n.x + s[4 * r] * n.y + s[2 * r] * n.z};
  }
  static FELLOE_INLINE Lane shear(const Triple &n, const Triple &c, const Triple &s, Lane cn,
                                  Lane sn) {
    const Lane both = product(c, c) + product(s, s) - cn * cn - sn * sn;
    const Lane area = n.x * (c.y * s.z - c.z * s.y) + n.y * (c.z * s.x - c.x * s.z) +
                      n.z * (c.x * s.y - c.y * s.x);
    return 0.5 * (safe_root(both + 2.0 * area) + safe_root(both - 2.0 * area));
  }

  const Lane *mean_, *cosine_, *sine_;
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

 private:
  FELLOE_INLINE const Lane *state(int i) const { return s_ + 6L * registers * i; }

  /// Round the path in the plane.
  struct Box {
    Lane low_x, high_x, low_y, high_y;
    FELLOE_INLINE Lane half_diagonal() const {
      const Lane x = high_x - low_x, y = high_y - low_y;
      return 0.5 * root(x * x + y * y);
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
    return smallest_circle(path_, n_, {0.5 * (b.low_x + b.high_x), 0.5 * (b.low_y + b.high_y)},
                           floor);
  }

  const Lane *s_;
  int n_;
  Lane *path_;
};

}  // namespace
}  // namespace felloe::detail
