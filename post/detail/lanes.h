// SPDX-License-Identifier: GPL-3.0-or-later
// Arithmetic with several points side by side, as many as a register holds; part of the plane
// kernels, therefore without a single header of the standard library.
#pragma once
#include "post/plane_kernels.h"

#define FELLOE_INLINE inline __attribute__((always_inline))

namespace felloe::detail {
namespace {

#if defined(__AVX512F__)
constexpr int n_lanes_here = 8;
#elif defined(__AVX__)
constexpr int n_lanes_here = 4;
#else
constexpr int n_lanes_here = 2;
#endif
/// Registers that eight values fill: lanes of the same points lie so many apart.
constexpr int registers = points_at_once / n_lanes_here;

typedef double Lane __attribute__((vector_size(8 * n_lanes_here), may_alias));
typedef double PlainLane __attribute__((vector_size(8 * n_lanes_here)));  // as built-ins want it
typedef long Mask __attribute__((vector_size(8 * n_lanes_here)));  // of comparing lanes: 0 or -1

constexpr double huge = 1e300;

FELLOE_INLINE Lane all(double x) { return Lane{} + x; }
FELLOE_INLINE Lane larger(Lane a, Lane b) { return a > b ? a : b; }
FELLOE_INLINE Lane smaller(Lane a, Lane b) { return a < b ? a : b; }
FELLOE_INLINE Lane times(double factor, Lane x) { return factor * x; }
FELLOE_INLINE Lane size(Lane a) { return larger(a, -a); }

FELLOE_INLINE Lane root(Lane x) {
#if defined(__AVX512F__)
  return (Lane)__builtin_ia32_sqrtpd512_mask((PlainLane)x, (PlainLane)x, (unsigned char)-1, 4);
#elif defined(__AVX__)
  return (Lane)__builtin_ia32_sqrtpd256((PlainLane)x);
#elif defined(__SSE2__)
  return (Lane)__builtin_ia32_sqrtpd((PlainLane)x);
#else
  return (Lane)(PlainLane){__builtin_sqrt(x[0]), __builtin_sqrt(x[1])};
#endif
}

/// The root of what only rounding can make negative.
FELLOE_INLINE Lane safe_root(Lane x) { return root(larger(x, Lane{})); }

/// A bit for every lane.
FELLOE_INLINE unsigned bits(Mask m) {
#if defined(__AVX512F__)
  typedef long long Integers __attribute__((vector_size(64)));
  return (unsigned char)__builtin_ia32_cvtq2mask512((Integers)m);
#elif defined(__AVX__)
  return (unsigned)__builtin_ia32_movmskpd256((PlainLane)m);
#elif defined(__SSE2__)
  return (unsigned)__builtin_ia32_movmskpd((PlainLane)m);
#else
  return (m[0] ? 1U : 0U) | (m[1] ? 2U : 0U);
#endif
}
FELLOE_INLINE bool any(Mask m) { return bits(m) != 0; }

/// The lanes of one register out of eight values.
FELLOE_INLINE const Lane *lanes(const EightValues *values, int which) {
  return reinterpret_cast<const Lane *>(values) + which;
}
FELLOE_INLINE void store(EightValues &to, int which, Lane from) {
  reinterpret_cast<Lane *>(&to)[which] = from;
}

constexpr int most_planes = 1024;  // of a grid

/// A vector of each point.
struct Triple {
  Lane x, y, z;
};

FELLOE_INLINE Triple choose(Mask m, const Triple &yes, const Triple &no) {
  return {m ? yes.x : no.x, m ? yes.y : no.y, m ? yes.z : no.z};
}
FELLOE_INLINE Lane product(const Triple &a, const Triple &b) {
  return a.x * b.x + a.y * b.y + a.z * b.z;
}
FELLOE_INLINE Triple sum(const Triple &n, Lane a, const Triple &u, Lane b, const Triple &v) {
  return {n.x + a * u.x + b * v.x, n.y + a * u.y + b * v.y, n.z + a * u.z + b * v.z};
}
FELLOE_INLINE Triple unit(const Triple &n) {
  const Lane inverse = 1.0 / root(product(n, n));
  return {inverse * n.x, inverse * n.y, inverse * n.z};
}

/// Two unit vectors that make a right-handed frame with n, without a branch (Duff et al., J.
/// Computer Graphics Techniques 6, 2017).
FELLOE_INLINE void frame(const Triple &n, Triple &u, Triple &v) {
  const Lane sign = n.z >= 0 ? all(1) : all(-1);
  const Lane a = -1.0 / (sign + n.z), b = n.x * n.y * a;
  u = {1.0 + sign * n.x * n.x * a, sign * b, -sign * n.x};
  v = {b, sign + n.y * n.y * a, -n.y};
}

}  // namespace
}  // namespace felloe::detail
