// SPDX-License-Identifier: GPL-3.0-or-later
// The planes of Findley's sum and of the limited one for histories of one harmonic; part of the
// plane kernels.
#pragma once
#include "post/detail/lane_climbs.h"
#include "post/detail/lane_crest.h"
#include "post/detail/lane_paths.h"

namespace felloe::detail {
namespace {

/// Shear amplitude + weight times the largest normal stress.
struct ShearAndNormal {
  double weight;
  static constexpr bool has_crests = false;
  template <class Values>
  FELLOE_INLINE Values of(Values shear, Values amplitude, Values mean) const {
    return shear + times(weight, mean + amplitude);
  }
  FELLOE_INLINE Lane operator()(Lane shear, const LaneSwing &normal) const {
    return of(shear, normal.amplitude, normal.mean);
  }
};

/// The amplitude that limits the static normal stress; or the larger one.
enum class LimitBy { larger, shear, normal };

/// The same with three amplitudes for the static part: all that the limited sum may count.
template <LimitBy by>
struct ShearAndFullLimit {
  double weight;
  template <class Values>
  FELLOE_INLINE Values of(Values shear, Values amplitude, Values) const {
    return shear + times(weight, amplitude + 3 * (by == LimitBy::shear ? shear : amplitude));
  }
  FELLOE_INLINE Lane operator()(Lane shear, const LaneSwing &normal) const {
    return of(shear, normal.amplitude, normal.mean);
  }
};

/// The same with a static part of at most three amplitudes: R = 0.5. Crests where the limit begins.
struct ShearAndLimitedNormal {
  double weight;
  LimitBy by = LimitBy::larger;
  static constexpr bool has_crests = true;
  /// The sum with the full limit.
  template <class Values>
  FELLOE_INLINE Values at_limit(Values shear, Values amplitude) const {
    const Values limit = by == LimitBy::shear    ? shear
                         : by == LimitBy::normal ? amplitude
                                                 : larger(shear, amplitude);
    return shear + times(weight, amplitude + 3 * limit);
  }
  FELLOE_INLINE LowerOf both(Lane shear, const LaneSwing &normal) const {
    return {shear + weight * normal.largest(), at_limit(shear, normal.amplitude)};
  }
  struct RoughBoth {
    Floats findley, at_limit;
  };
  FELLOE_INLINE RoughBoth of(Floats shear, Floats amplitude, Floats mean) const {
    return {shear + times(weight, mean + amplitude), at_limit(shear, amplitude)};
  }
  FELLOE_INLINE Lane operator()(Lane shear, const LaneSwing &normal) const {
    return both(shear, normal).value();
  }
};

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

/// Climbs the limited sum, on its crests too.
struct CrestUphill {
  ShearAndLimitedNormal limited;
  static constexpr double margin = 0.003;

  FELLOE_INLINE auto pull(const HarmonicLanes &path) const {
    return [&](const Triple &n, const LowerOf &f, Lane &way) __attribute__((always_inline)) {
      return path.towards_static_tension(n, (f.second - f.first) / limited.weight, way);
    };
  }
  FELLOE_INLINE BestPlane value(const HarmonicLanes &path, const Triple &n) const {
    const BothSides both{path, limited};
    return pulled(both, pull(path), n, both(n));
  }
  FELLOE_INLINE BestPlane step(const HarmonicLanes &path, const BestPlane &from, Lane &size) const {
    return towards_crest(BothSides{path, limited}, from, size, pull(path));
  }
};

/// Summits of the limited sum and of what it can have on crests: planes beside a crest may be much
/// lower than it, but for static tension that a plane nearby has.
__attribute__((noinline)) inline void look_for_crests(const HarmonicFloats &path,
                                                      const PlaneGrid &grid,
                                                      const ShearAndLimitedNormal &limited,
                                                      Starts (&starts)[n_floats_here]) {
  Floats values[most_planes], plain[most_planes], highest = Floats{} - 1e30F,
                                                  lowest = Floats{} + 1e30F;
  const float pull = static_cast<float>(2 * furthest_pull * limited.weight);
  for (int k = 0; k < grid.n; ++k) {
    const double *const n = grid.normal + 3 * k;
    const auto both = path.of(n, limited);
    const Floats lower = smaller(both.findley, both.at_limit);
    highest = larger(highest, lower);
    lowest = smaller(lowest, lower);
    const Floats lacks = both.at_limit - both.findley;
    const FloatMask near =
        (lacks > 0) & (lacks * lacks < pull * pull * path.static_shear_squared(n));
    values[k] = near ? both.at_limit : lower;
    plain[k] = lower;
  }
  const Floats size = larger(highest, -highest);
  offer_summits(grid, plain,
                larger(highest - 0.05F * (size + highest - lowest), highest - 0.15F * size),
                highest - 0.003F * size, starts);
  offer_summits(grid, values,
                larger(highest - 0.05F * (size + highest - lowest), highest - 0.15F * size),
                Floats{} + 1e30F, starts);
}

/// Points by their numbers.
struct PointList {
  int n = 0, of[points_a_call];
  void add(int point) { of[n++] = point; }
};

enum class Effort { quick, thorough };

/// The largest value of a sum of smooth parts over all planes, for the points of the list.
template <class Sum>
__attribute__((noinline)) void find_highest(const EightValues *histories, const PointList &points,
                                            const Sum &sum, Effort effort, HighestPlane *found) {
  constexpr double first_step = 0.09;
  const double depth = effort == Effort::quick ? 0.05 : 0.2;
  const PlaneGrid &grid = effort == Effort::quick ? quick_plane_grid() : fine_plane_grid();
  const Uphill<Sum> up{sum};
  for (int first = 0; first < points.n; first += batch_points) {
    const int n = points.n - first < batch_points ? points.n - first : batch_points;
    Batch batch(histories, points.of + first, n);
    batch.start_from_grid(grid, first_step,
                          [&](const HarmonicFloats &path, Starts(&starts)[n_floats_here]) {
                            look_for_summits(path, grid, sum, starts);
                          });
    batch.climb(up);
    const int so_far = batch.n_climbs();
    batch.start_beside(so_far, up, depth, [](const HarmonicLanes &path, const Triple &m) {
      return path.beyond_normal_valley(m);
    });
    for (int i = 1; i < 6; ++i)
      if (i == 3 || effort == Effort::thorough)
        batch.start_beside(so_far, up, depth, [i](const HarmonicLanes &path, const Triple &m) {
          return path.round_shear_valley(m, hexagon_x[i], hexagon_y[i]);
        });
    batch.climb_all(up);
    for (int i = 0; i < n; ++i) found[points.of[first + i]] = batch.best(i);
  }
}

/// Calls something with a register of points of the list, their planes and the place of the first
/// of them in the list.
template <class Each>
FELLOE_INLINE void each_register(const EightValues *histories, const PointList &points,
                                 const HighestPlane *planes, const Each &each) {
  for (int first = 0; first < points.n; first += points_at_once) {
    EightValues history[18];
    EightNormals normals;
    for (int i = 0; i < points_at_once; ++i) {
      const int point = points.of[first + i < points.n ? first + i : points.n - 1];
      const EightValues *h = histories + 18L * (point / points_at_once);
      for (int k = 0; k < 18; ++k) history[k].of[i] = h[k].of[point % points_at_once];
      normals.put(i, planes[point].n);
    }
    for (int r = 0; r < registers; ++r)
      each(HarmonicLanes(history, r), normals.lanes_of(r), first + r * n_lanes_here);
  }
}

/// Those points of the list whose planes a question asked of their register says yes to.
template <class Question>
__attribute__((noinline)) void choose_points(const EightValues *histories, const PointList &points,
                                             const HighestPlane *planes, const Question &question,
                                             PointList &chosen) {
  each_register(histories, points, planes, [&](const HarmonicLanes &path, const Triple &n, int at) {
    const Mask yes = question(path, n);
    for (int i = 0; i < n_lanes_here && at + i < points.n; ++i)
      if (yes[i]) chosen.add(points.of[at + i]);
  });
}

/// Static stress chose the plane and little alternates on it: the shear amplitude is a cone nearby,
/// with summits all round.
FELLOE_INLINE Mask in_doubt(const HarmonicLanes &path, const Triple &n, double weight) {
  return path.shear(n) < 0.3 * weight * path.normal(n).mean;
}

inline void findley_planes(const EightValues *histories, const PointList &points,
                           const ShearAndNormal &sum, HighestPlane *found) {
  find_highest(histories, points, sum, Effort::quick, found);
  PointList doubtful;
  choose_points(
      histories, points, found,
      [&](const HarmonicLanes &path, const Triple &n) { return in_doubt(path, n, sum.weight); },
      doubtful);
  find_highest(histories, doubtful, sum, Effort::thorough, found);
}

/// The highest planes of the limited sum with one of the amplitudes as limit, where they are higher
/// than those found. It is the lower one of Findley's sum and of the sum with the full limit: where
/// the latter's highest plane is not cut off by Findley's sum, it is the one; else the one lies on
/// a crest or is a lower summit.
template <LimitBy by>
__attribute__((noinline)) void limited_planes(const EightValues *histories, const PointList &points,
                                              double weight, HighestPlane *found) {
  const ShearAndNormal findley{weight};
  const ShearAndFullLimit<by> full{weight};
  HighestPlane highest[points_a_call];
  find_highest(histories, points, full, Effort::quick, highest);
  PointList higher, on_crest;
  for (int i = 0; i < points.n; ++i)
    if (highest[points.of[i]].value > found[points.of[i]].value) higher.add(points.of[i]);
  choose_points(
      histories, higher, highest,
      [&](const HarmonicLanes &path, const Triple &n) {
        return path.of(n, findley, all(0)) < path.of(n, full, all(0));
      },
      on_crest);
  int next = 0;
  for (int i = 0; i < higher.n; ++i)
    if (next < on_crest.n && on_crest.of[next] == higher.of[i])
      ++next;
    else
      found[higher.of[i]] = highest[higher.of[i]];
  constexpr double first_step = 0.04;
  const ShearAndLimitedNormal limited{weight, by};
  for (int first = 0; first < on_crest.n; first += batch_points) {
    const int n = on_crest.n - first < batch_points ? on_crest.n - first : batch_points;
    Batch batch(histories, on_crest.of + first, n);
    batch.start_from_grid(fine_plane_grid(), first_step,
                          [&](const HarmonicFloats &path, Starts(&starts)[n_floats_here]) {
                            look_for_crests(path, fine_plane_grid(), limited, starts);
                          });
    batch.climb_all(CrestUphill{limited});
    for (int i = 0; i < n; ++i) {
      HighestPlane &p = found[on_crest.of[first + i]];
      if (batch.best(i).value > p.value) p = batch.best(i);
    }
  }
}

/// The limited sum's planes: where the highest plane of Findley's sum is not cut off by the limit,
/// it is the one.
inline void limited_findley_planes(const EightValues *histories, const PointList &points,
                                   const ShearAndLimitedNormal &limited, HighestPlane *found) {
  const ShearAndNormal findley{limited.weight};
  const auto is_cut = [&](const HarmonicLanes &path, const Triple &n) {
    const LowerOf both = BothSides{path, limited}(n);
    return both.second < both.first;
  };
  find_highest(histories, points, findley, Effort::quick, found);
  PointList doubtful, cut;
  choose_points(
      histories, points, found,
      [&](const HarmonicLanes &path, const Triple &n) {
        return ~is_cut(path, n) & in_doubt(path, n, limited.weight);
      },
      doubtful);
  find_highest(histories, doubtful, findley, Effort::thorough, found);
  choose_points(histories, points, found, is_cut, cut);
  for (int i = 0; i < cut.n; ++i) found[cut.of[i]] = HighestPlane{};
  limited_planes<LimitBy::shear>(histories, cut, limited.weight, found);
  limited_planes<LimitBy::normal>(histories, cut, limited.weight, found);
}

}  // namespace
}  // namespace felloe::detail
