// SPDX-License-Identifier: GPL-3.0-or-later
// Searches many points at once: a first look at all planes, then climbs of any points side by side,
// so that no register waits for the point that needs most of them; part of the plane kernels.
#pragma once
#include "post/detail/lane_paths.h"
#include "post/detail/lane_scan.h"
#include "post/detail/lane_search.h"

namespace felloe::detail {
namespace {

constexpr int batch_points = 64;

/// The highest plane of a point so far.
struct HighestPlane {
  double n[3] = {0, 0, 1};
  double value = -huge;
};

/// Where a climb of one of the batch's points stands.
struct QueuedClimb {
  int point;
  double n[3];
  double value;
  double gained;  ///< by the last step
  double step;    ///< [rad]
};

/// Planes of eight points, or of eight climbs.
struct EightNormals {
  EightValues of[3];
  void put(int i, const double *n) {
    for (int k = 0; k < 3; ++k) of[k].of[i] = n[k];
  }
  FELLOE_INLINE Triple lanes_of(int which) const {
    const Lane *const x = lanes(of, which);
    return {x[0], x[registers], x[2 * registers]};
  }
  FELLOE_INLINE void store_lanes(int which, const Triple &n) {
    store(of[0], which, n.x);
    store(of[1], which, n.y);
    store(of[2], which, n.z);
  }
};

/// Climbs the paraboloids of a smooth sum.
template <class Sum>
struct Uphill {
  Sum sum;
  static constexpr double margin = 0.001;
  FELLOE_INLINE BestPlane value(const HarmonicLanes &path, const Triple &n) const {
    return {n, path.of(n, sum, all(0))};
  }
  FELLOE_INLINE BestPlane step(const HarmonicLanes &path, const BestPlane &from, Lane &size) const {
    return towards_top(
        [&](const Triple &n, Lane)
            __attribute__((always_inline)) { return path.of(n, sum, all(0)); },
        from, size);
  }
};

/// Points that are searched together.
class Batch {
 public:
  /// @param histories  of all points, 18 values for every eight
  Batch(const EightValues *histories, const int *points, int n) : n_points_(n) {
    for (int i = 0; i < batch_points; ++i) {
      const int point = points[i < n ? i : n - 1];
      const EightValues *from = histories + 18L * (point / points_at_once);
      EightValues *to = histories_ + 18L * (i / points_at_once);
      for (int k = 0; k < 18; ++k)
        to[k].of[i % points_at_once] = from[k].of[point % points_at_once];
    }
  }

  const HighestPlane &best(int point) const { return best_[point]; }

  /// Starts climbs from planes of the grid that look(floats, starts) offers.
  template <class Look>
  void start_from_grid(const PlaneGrid &grid, double step, const Look &look) {
    for (int first = 0; first < n_points_; first += n_floats_here) {
      Starts starts[n_floats_here];
      look(HarmonicFloats(histories_, first), starts);
      for (int i = 0; i < n_floats_here && first + i < n_points_; ++i)
        for (int k = 0; k < starts[i].n; ++k)
          start(first + i, grid.normal + 3L * starts[i].plane[k], step);
    }
  }
  /// Starts climbs from planes beside(path, n) of where the first `n` climbs are, unless they lie
  /// lower by more than the share `depth`.
  template <class Up, class Beside>
  void start_beside(int n, const Up &, double depth, const Beside &);
  int n_climbs() const { return n_climbs_; }
  /// Takes all climbs two steps further and drops the hopeless. up.value(path, n): the plane and
  /// its value, or one nearby that is higher; up.step(path, plane, step): a step uphill.
  template <class Up>
  void climb(const Up &up) {
    for (int first = 0; first < n_climbs_; first += points_at_once) climb_on(first, up);
    drop_hopeless(up.margin);
  }
  /// Takes all climbs to their tops.
  template <class Up>
  void climb_all(const Up &up) {
    for (int turn = 0; n_climbs_ > 0 && turn < 12; ++turn) climb(up);
  }

 private:
  template <class Up>
  void climb_on(int first, const Up &);
  void drop_hopeless(double margin);
  int gather(int first, int end, EightValues (&history)[18], EightNormals &) const;
  void start(int point, const double *n, double step) {
    QueuedClimb &c = climbs_[n_climbs_++];
    c.point = point;
    for (int k = 0; k < 3; ++k) c.n[k] = n[k];
    c.step = step;
  }

  EightValues histories_[18 * batch_points / points_at_once];
  HighestPlane best_[batch_points];
  static constexpr int most_climbs_here = 2 * batch_points * most_starts;
  QueuedClimb climbs_[most_climbs_here];
  int n_points_, n_climbs_ = 0;
};

/// Histories and planes of eight climbs; the last of fewer stands for missing ones.
inline int Batch::gather(int first, int end, EightValues (&history)[18],
                         EightNormals &normals) const {
  const int n = end - first < points_at_once ? end - first : points_at_once;
  for (int i = 0; i < points_at_once; ++i) {
    const QueuedClimb &c = climbs_[first + (i < n ? i : n - 1)];
    const EightValues *h = histories_ + 18L * (c.point / points_at_once);
    for (int k = 0; k < 18; ++k) history[k].of[i] = h[k].of[c.point % points_at_once];
    normals.put(i, c.n);
  }
  return n;
}

template <class Up, class Beside>
__attribute__((noinline)) void Batch::start_beside(int n_climbs, const Up &up, double depth,
                                                   const Beside &beside) {
  constexpr double first_step = 0.05;
  for (int first = 0; first < n_climbs; first += points_at_once) {
    EightValues history[18], worth;
    EightNormals here, there;
    const int n = gather(first, n_climbs, history, here);
    for (int r = 0; r < registers; ++r) {
      const HarmonicLanes path(history, r);
      const Triple at = here.lanes_of(r), other = beside(path, at);
      const Lane value = up.value(path, at).value;
      there.store_lanes(r, other);
      store(worth, r, up.value(path, other).value > value - depth * size(value) ? all(1) : all(0));
    }
    for (int i = 0; i < n && n_climbs_ < most_climbs_here; ++i) {
      const double normal[3] = {there.of[0].of[i], there.of[1].of[i], there.of[2].of[i]};
      if (worth.of[i] != 0) start(climbs_[first + i].point, normal, first_step);
    }
  }
}

/// Takes eight climbs two steps further.
template <class Up>
__attribute__((noinline)) void Batch::climb_on(int first, const Up &up) {
  EightValues history[18], value, gained, step;
  EightNormals normals;
  const int n = gather(first, n_climbs_, history, normals);
  for (int i = 0; i < points_at_once; ++i) step.of[i] = climbs_[first + (i < n ? i : n - 1)].step;
  for (int r = 0; r < registers; ++r) {
    const HarmonicLanes path(history, r);
    Lane s = *lanes(&step, r), before;
    BestPlane p = up.value(path, normals.lanes_of(r));
    for (int i = 0; i < 2; ++i) {
      before = p.value;
      p = up.step(path, p, s);
    }
    normals.store_lanes(r, p.n);
    store(value, r, p.value);
    store(gained, r, p.value - before);
    store(step, r, s);
  }
  for (int i = 0; i < n; ++i) {
    QueuedClimb &c = climbs_[first + i];
    for (int k = 0; k < 3; ++k) c.n[k] = normals.of[k].of[i];
    c.value = value.of[i];
    c.gained = gained.of[i];
    c.step = step.of[i];
  }
}

/// Those that have arrived, that cannot pass the best one of their point any more, or that follow
/// it to the same top.
__attribute__((noinline)) inline void Batch::drop_hopeless(double margin) {
  constexpr double same = 0.03;  // rad
  for (int i = 0; i < n_climbs_; ++i) {
    const QueuedClimb &c = climbs_[i];
    HighestPlane &best = best_[c.point];
    if (c.value <= best.value) continue;
    best.value = c.value;
    for (int k = 0; k < 3; ++k) best.n[k] = c.n[k];
  }
  int kept = 0;
  for (int i = 0; i < n_climbs_; ++i) {
    const QueuedClimb &c = climbs_[i];
    const HighestPlane &best = best_[c.point];
    const double cosine = c.n[0] * best.n[0] + c.n[1] * best.n[1] + c.n[2] * best.n[2];
    const bool follows = c.value < best.value && 1 - cosine * cosine < same * same;
    const double size = c.value > 0 ? c.value : -c.value;
    if (c.step > last_step && !follows && c.value + c.gained + margin * size >= best.value)
      climbs_[kept++] = c;
  }
  n_climbs_ = kept;
}

}  // namespace
}  // namespace felloe::detail
