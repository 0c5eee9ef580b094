// SPDX-License-Identifier: GPL-3.0-or-later
// The planes of Findley's sum and of the limited one for a history of one harmonic; part of the
// plane kernels.
#pragma once
#include "post/detail/lane_crest.h"
#include "post/detail/lane_paths.h"

namespace felloe::detail {
namespace {

/// Shear amplitude + weight times the largest normal stress.
struct ShearAndNormal {
  double weight;
  static constexpr bool has_crests = false;
  FELLOE_INLINE Lane operator()(Lane shear, const LaneSwing &normal) const {
    return shear + weight * normal.largest();
  }
};

/// The same with a static part of at most three amplitudes: R = 0.5. Crests where the limit begins.
struct ShearAndLimitedNormal {
  enum class By { larger, shear, normal };
  double weight;
  By by = By::larger;  ///< the amplitude that limits
  static constexpr bool has_crests = true;
  FELLOE_INLINE Lane limit(Lane shear, const LaneSwing &normal) const {
    if (by == By::shear) return 3 * shear;
    return 3 * (by == By::normal ? normal.amplitude : larger(shear, normal.amplitude));
  }
  FELLOE_INLINE LowerOf both(Lane shear, const LaneSwing &normal) const {
    return {shear + weight * normal.largest(),
            shear + weight * (normal.amplitude + limit(shear, normal))};
  }
  FELLOE_INLINE Lane operator()(Lane shear, const LaneSwing &normal) const {
    return both(shear, normal).value();
  }
};

/// Where the normal stress swings little, a valley is beside the summit and behind it another one.
template <class Value>
FELLOE_INLINE BestPlane or_beyond_valley(const HarmonicLanes &path, const Value &value,
                                         const BestPlane &best) {
  if (!any(path.normal(best.n).amplitude < 0.35 * path.shear(best.n))) return best;
  BestPlane other;
  other.n = path.beyond_normal_valley(best.n);
  other.value = value(other.n, all(-huge));
  if (!any(other.value > best.value - 0.03 * size(best.value))) return best;
  other = topped(value, other, all(0.05), 8);
  return choose(other.value > best.value, other, best);
}

/// Findley's plane. In doubt is one that static stress chose and on which little alternates: the
/// shear amplitude is a cone near it, with summits all round.
FELLOE_INLINE FoundPlane worst_sum(const HarmonicLanes &path, const PlaneGrid &grid,
                                   const ShearAndNormal &sum, int effort) {
  const auto value = [&](const Triple &n, Lane floor) __attribute__((always_inline)) {
    return path.of(n, sum, floor);
  };
  const BestPlane best =
      or_beyond_valley(path, value, highest_plane(value, grid, effort > 0 ? 16 : 6));
  if (effort > 0) return {best};
  return {best, path.shear(best.n) < 0.3 * sum.weight * path.normal(best.n).mean};
}

/// The larger amplitude limits: where both are about equal is a valley with summits on both sides.
FELLOE_INLINE Mask branches_meet(const HarmonicLanes &path, const Triple &n) {
  const Lane shear = path.shear(n), amplitude = path.normal(n).amplitude;
  return size(shear - amplitude) < 0.25 * larger(shear, amplitude);
}

/// Both sides of the limit at a plane.
struct BothSides {
  const HarmonicLanes &path;
  const ShearAndLimitedNormal &limited;
  FELLOE_INLINE LowerOf operator()(const Triple &n) const {
    return path.of(
        n,
        [&](Lane tau, const LaneSwing &s)
            __attribute__((always_inline)) { return limited.both(tau, s); },
        all(-huge));
  }
};

/// The quick search. It climbs no crests; in doubt is where one may matter: where a plane beside
/// one has nearly the best value but for static tension that a neighbour may have.
__attribute__((noinline)) inline FoundPlane quick_limited(const HarmonicLanes &path,
                                                          const PlaneGrid &grid,
                                                          const ShearAndLimitedNormal &limited) {
  const auto value = [&](const Triple &n, Lane floor) __attribute__((always_inline)) {
    return path.of(n, limited, floor);
  };
  const BothSides both{path, limited};
  Lane values[most_planes], highest = all(-huge), lowest = all(huge), crest = all(-huge);
  for (int k = 0; k < grid.n; ++k) {
    const double *n = grid.normal + 3 * k;
    Lane slope_squared;
    const LowerOf f = path.with_slope(
        Triple{all(n[0]), all(n[1]), all(n[2])},
        [&](Lane tau, const LaneSwing &s)
            __attribute__((always_inline)) { return limited.both(tau, s); },
        slope_squared);
    values[k] = f.value();
    highest = larger(highest, values[k]);
    lowest = smaller(lowest, values[k]);
    // the normal stress changes by twice the shear stress a radian
    const Lane lacks = (f.second - f.first) / (2 * furthest_pull * limited.weight);
    const Mask near = (lacks > 0) & (lacks * lacks < slope_squared);
    crest = near ? larger(crest, f.second) : crest;
  }
  Summits summits;
  keep_summits(values, larger(highest - 0.05 * (size(highest) + highest - lowest), 0.85 * highest),
               grid, summits);
  const auto from = [&](const Triple &n) __attribute__((always_inline)) {
    return BestPlane{n, value(n, all(-huge))};
  };
  const auto up = [&](const BestPlane &p, Lane &step) __attribute__((always_inline)) {
    return towards_top(value, p, step);
  };
  const BestPlane best =
      or_beyond_valley(path, value, highest_of(from, up, grid, summits, 6, 2, 16));
  const LowerOf there = both(best.n);
  return {best, (crest > 0.92 * best.value) |
                    ((there.second < there.first) & branches_meet(path, best.n))};
}

/// The thorough search, on the crests too.
__attribute__((noinline)) inline BestPlane top_of_limited(const HarmonicLanes &path,
                                                          const PlaneGrid &grid,
                                                          const ShearAndLimitedNormal &limited) {
  const BothSides both{path, limited};
  const auto uphill = [&](const Triple &n, const LowerOf &f, Lane &way)
      __attribute__((always_inline)) {
    return path.towards_static_tension(n, (f.second - f.first) / limited.weight, way);
  };
  Summits summits;
  find_summits_and_crests(both, uphill, grid, summits);
  const auto from = [&](const Triple &n) __attribute__((always_inline)) {
    return pulled(both, uphill, n, both(n));
  };
  const auto up = [&](const BestPlane &p, Lane &step) __attribute__((always_inline)) {
    return towards_crest(both, p, step, uphill);
  };
  return highest_of(from, up, grid, summits, 7, 3, 24, 0.04);
}

/// The limited sum's plane: quickly, thoroughly, and with the one and the other amplitude as limit.
FELLOE_INLINE FoundPlane worst_sum(const HarmonicLanes &path, const PlaneGrid &grid,
                                   ShearAndLimitedNormal limited, int effort) {
  if (effort == 0) return quick_limited(path, grid, limited);
  if (effort == 1) {
    const BestPlane best = top_of_limited(path, grid, limited);
    return {best, branches_meet(path, best.n)};
  }
  limited.by = ShearAndLimitedNormal::By::shear;
  const BestPlane by_shear = top_of_limited(path, grid, limited);
  limited.by = ShearAndLimitedNormal::By::normal;
  const BestPlane by_normal = top_of_limited(path, grid, limited);
  return {choose(by_normal.value > by_shear.value, by_normal, by_shear)};
}

}  // namespace
}  // namespace felloe::detail
