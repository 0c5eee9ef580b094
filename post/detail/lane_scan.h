// SPDX-License-Identifier: GPL-3.0-or-later
// First look at all planes of a grid, in single precision; part of the plane kernels.
#pragma once
#include "post/detail/lanes.h"

namespace felloe::detail {
namespace {

/// Twice as many points side by side as in double precision.
constexpr int n_floats_here = 2 * n_lanes_here;
typedef float Floats __attribute__((vector_size(8 * n_lanes_here), may_alias));
typedef int FloatMask __attribute__((vector_size(8 * n_lanes_here), may_alias));

FELLOE_INLINE Floats larger(Floats a, Floats b) { return a > b ? a : b; }
FELLOE_INLINE Floats smaller(Floats a, Floats b) { return a < b ? a : b; }
FELLOE_INLINE Floats times(double factor, Floats x) { return static_cast<float>(factor) * x; }

typedef float PlainFloats __attribute__((vector_size(8 * n_lanes_here)));  // as built-ins want it

/// A bit for every point.
FELLOE_INLINE unsigned bits(FloatMask m) {
#if defined(__AVX512F__)
  typedef int Integers __attribute__((vector_size(64)));
  return (unsigned short)__builtin_ia32_cvtd2mask512((Integers)m);
#elif defined(__AVX__)
  return (unsigned)__builtin_ia32_movmskps256((PlainFloats)m);
#elif defined(__SSE2__)
  return (unsigned)__builtin_ia32_movmskps((PlainFloats)m);
#else
  unsigned b = 0;
  for (int i = 0; i < n_floats_here; ++i) b |= m[i] ? 1U << i : 0U;
  return b;
#endif
}

/// The root of what only rounding can make negative, to 4e-4 where that is quicker.
FELLOE_INLINE Floats rough_root(Floats x) {
  const PlainFloats y = (PlainFloats)larger(x, Floats{} + 1e-30F);
#if defined(__AVX512F__)
  return (Floats)(y * __builtin_ia32_rsqrt14ps512_mask(y, y, (unsigned short)-1));
#elif defined(__AVX__)
  return (Floats)(y * __builtin_ia32_rsqrtps256(y));
#elif defined(__SSE2__)
  return (Floats)(y * __builtin_ia32_rsqrtps(y));
#else
  PlainFloats root = y;
  for (int i = 0; i < n_floats_here; ++i) root[i] = __builtin_sqrtf(y[i]);
  return (Floats)root;
#endif
}

/// Histories of one harmonic, in single precision: enough to see where summits are.
class HarmonicFloats {
 public:
  /// @param histories  18 values for every eight points; there are enough to fill a register
  HarmonicFloats(const EightValues *histories, int first_point) {
    for (int i = 0; i < n_floats_here; ++i) {
      const int point = first_point + i;
      const EightValues *h = histories + 18L * (point / points_at_once);
      for (int k = 0; k < 18; ++k) s_[k][i] = static_cast<float>(h[k].of[point % points_at_once]);
    }
  }

  /// A sum of shear amplitude, amplitude and mean of the normal stress.
  template <class Sum>
  FELLOE_INLINE auto of(const double *normal, const Sum &sum) const {
    const float x = static_cast<float>(normal[0]), y = static_cast<float>(normal[1]),
                z = static_cast<float>(normal[2]);
    const Floats *m = s_, *c = s_ + 6, *s = s_ + 12;
    const Floats cx = c[0] * x + c[3] * y + c[5] * z, sx = s[0] * x + s[3] * y + s[5] * z;
    const Floats cy = c[3] * x + c[1] * y + c[4] * z, sy = s[3] * x + s[1] * y + s[4] * z;
    const Floats cz = c[5] * x + c[4] * y + c[2] * z, sz = s[5] * x + s[4] * y + s[2] * z;
    const Floats cn = cx * x + cy * y + cz * z, sn = sx * x + sy * y + sz * z;
    const Floats mean = m[0] * (x * x) + m[1] * (y * y) + m[2] * (z * z) + m[3] * (2 * x * y) +
                        m[4] * (2 * y * z) + m[5] * (2 * z * x);
    const Floats squared = cn * cn + sn * sn;
    const Floats both = cx * cx + cy * cy + cz * cz + sx * sx + sy * sy + sz * sz - squared;
    const Floats twice_area =
        2 * (x * (cy * sz - cz * sy) + y * (cz * sx - cx * sz) + z * (cx * sy - cy * sx));
    const Floats shear = 0.5F * (rough_root(both + twice_area) + rough_root(both - twice_area));
    return sum.of(shear, rough_root(squared), mean);
  }

  /// Square of the static shear stress: the static normal stress changes by twice of it a radian.
  FELLOE_INLINE Floats static_shear_squared(const double *normal) const {
    const float x = static_cast<float>(normal[0]), y = static_cast<float>(normal[1]),
                z = static_cast<float>(normal[2]);
    const Floats *m = s_;
    const Floats mx = m[0] * x + m[3] * y + m[5] * z, my = m[3] * x + m[1] * y + m[4] * z,
                 mz = m[5] * x + m[4] * y + m[2] * z, mn = mx * x + my * y + mz * z;
    return mx * mx + my * my + mz * mz - mn * mn;
  }

 private:
  Floats s_[18];
};

constexpr int most_starts = 16;  // of a point

/// The highest of those planes of the grid that were offered for one point.
class Starts {
 public:
  int n = 0, plane[most_starts];
  void offer(int k, float value) {
    int at = n;
    if (n < most_starts)
      ++n;
    else
      for (int i = at = 0; i < most_starts; ++i) at = value_[i] < value_[at] ? i : at;
    if (n < most_starts || at == n - 1 || value > value_[at]) plane[at] = k, value_[at] = value;
  }

 private:
  float value_[most_starts];
};

/// Offers the grid's summits that are not below the threshold, and what lies not below the level
/// away from them: the grid may see two flat summits as one.
FELLOE_INLINE void offer_summits(const PlaneGrid &grid, const Floats *values, Floats threshold,
                                 Floats level, Starts (&starts)[n_floats_here]) {
  unsigned summits[most_planes];  // a bit for every point
  const auto offer = [&](int k, unsigned points) __attribute__((always_inline)) {
    for (; points != 0; points &= points - 1) {
      const int i = __builtin_ctz(points);
      starts[i].offer(k, values[k][i]);
    }
  };
  for (int k = 0; k < grid.n; ++k) {
    FloatMask top = values[k] >= threshold;
    summits[k] = bits(top);
    if (summits[k] == 0) continue;
    for (int i = 0; i < 6; ++i) top &= values[k] >= values[grid.neighbour[6 * k + i]];
    summits[k] = bits(top);
    offer(k, summits[k]);
  }
  for (int k = 0; k < grid.n; ++k) {
    unsigned flat = bits(values[k] >= level) & ~summits[k];
    for (int i = 0; i < 6 && flat != 0; ++i) flat &= ~summits[grid.neighbour[6 * k + i]];
    offer(k, flat);
  }
}

/// Summits of the sum that are not far below the highest one.
template <class Sum>
__attribute__((noinline)) void look_for_summits(const HarmonicFloats &path, const PlaneGrid &grid,
                                                const Sum &sum, Starts (&starts)[n_floats_here]) {
  Floats values[most_planes], highest = Floats{} - 1e30F, lowest = Floats{} + 1e30F;
  for (int k = 0; k < grid.n; ++k) {
    values[k] = path.of(grid.normal + 3 * k, sum);
    highest = larger(highest, values[k]);
    lowest = smaller(lowest, values[k]);
  }
  const Floats size = larger(highest, -highest);
  offer_summits(grid, values,
                larger(highest - 0.025F * (size + highest - lowest), highest - 0.1F * size),
                highest - 0.003F * size, starts);
}

}  // namespace
}  // namespace felloe::detail
