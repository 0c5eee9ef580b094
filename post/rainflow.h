// SPDX-License-Identifier: GPL-3.0-or-later
// Rainflow counting while a history streams by: closed cycles at once, the residue by a stated
// rule.
#pragma once
#include <cmath>
#include <cstddef>
#include <vector>

namespace felloe {

/// A counted cycle: range and mean in the unit of the history; count 1, or 0.5 for half a cycle.
struct CountedCycle {
  double range = 0, mean = 0, count = 1;
};

/// What becomes of turning points that close no cycle.
enum class Residue {
  /// Every remaining range is half a cycle: ASTM E1049, for a history that happens once.
  half_cycles,
  /// The history repeats itself: the residue is read once more, which closes all its cycles
  /// (common practice). One cycle has the range of the whole history.
  closed
};

/// Counts while values are pushed one by one. Values between two turning points change nothing.
///
///   X = latest range, Y = the one before. X < Y: read on. X >= Y: Y is a cycle and its two points
///   go, unless Y starts the history: then half a cycle and its first point goes (half_cycles), or
///   it waits for the end (closed).
///
/// Memory grows with the residue alone. Source: ASTM E1049-85, 5.4.4.
/// Test: Rainflow.CountsOfTheStandardsExample
class RainflowCounter {
 public:
  explicit RainflowCounter(Residue rule) : rule_(rule) { points_.resize(64); }

  /// Next value of the history, a finite number; sink(CountedCycle) for every cycle it closes.
  template <class Sink>
  void push(double value, Sink &&sink) {
    if (n_ >= 2) {
      const double last = points_[n_ - 1], rise = last - points_[n_ - 2];
      if ((value - last) * rise >= 0) {  // on the way, or standing still: no turning point
        points_[n_ - 1] = value;
        counted_ = false;
        return;
      }
      settle(sink);
    } else if (n_ == 1 && value == points_[0]) {
      return;
    }
    append(value);
  }

  /// End of the history: counts what is left by the rule and starts anew.
  template <class Sink>
  void finish(Sink &&sink) {
    settle(sink);
    if (rule_ == Residue::half_cycles) {
      for (std::size_t i = 1; i < n_; ++i) sink(cycle(points_[i - 1], points_[i], 0.5));
    } else if (n_ > 1) {
      // The last point may lie on the way to the first one of the repetition; push() sees to it.
      const std::vector<double> again(points_.begin(),
                                      points_.begin() + static_cast<std::ptrdiff_t>(n_));
      for (const double value : again) push(value, sink);
      settle(sink);
    }
    n_ = 0;
    counted_ = false;
  }

  /// Turning points that have closed no cycle so far, in order; the last value stands at the end.
  std::vector<double> residue() const {
    return {points_.begin(), points_.begin() + static_cast<std::ptrdiff_t>(n_)};
  }

 private:
  static CountedCycle cycle(double a, double b, double count) {
    return {std::fabs(b - a), 0.5 * (a + b), count};
  }

  void append(double value) {
    if (n_ == points_.size()) points_.resize(2 * n_);
    points_[n_++] = value;
    counted_ = false;
  }

  /// The last point is a turning point now: counts every cycle that it closes.
  template <class Sink>
  void settle(Sink &&sink) {
    if (counted_) return;
    counted_ = true;
    while (n_ >= 3) {
      double *const p = points_.data() + n_ - 3;
      if (std::fabs(p[2] - p[1]) < std::fabs(p[1] - p[0])) return;
      if (n_ > 3) {
        if (rule_ == Residue::closed && std::fabs(p[0] - p[-1]) < std::fabs(p[1] - p[0])) return;
        sink(cycle(p[0], p[1], 1));
        p[0] = p[2];
        n_ -= 2;
      } else {
        if (rule_ == Residue::closed) return;
        sink(cycle(p[0], p[1], 0.5));
        p[0] = p[1];
        p[1] = p[2];
        n_ = 2;
      }
    }
  }

  Residue rule_;
  std::vector<double> points_;  ///< the first n_ of them
  std::size_t n_ = 0;
  bool counted_ = false;  ///< the last point has been looked at as a turning point
};

/// All cycles of a history in the order of counting. Error when a value is not a finite number.
std::vector<CountedCycle> rainflow(const std::vector<double> &history, Residue);

/// Equal ranges and means put together, ascending in range, then mean.
std::vector<CountedCycle> merged(std::vector<CountedCycle>);

}  // namespace felloe
