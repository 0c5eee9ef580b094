// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/thin/moved_chart.h"

#include <algorithm>
#include <utility>
#include <vector>

#include "mesher/bands.h"
#include "mesher/error.h"

namespace felloe {
namespace {

/// Arc lengths at which a circle of the mesh may have to lie, in an order that layouts of one make
/// share.
std::vector<double> marks(const WheelLayout &w) {
  const double end = w.disc.length();
  std::vector<double> s = {0};
  for (const auto &p : w.disc.meridian().pieces()) s.push_back(p.s1);
  if (w.hub_face_s > 0) {
    s.push_back(w.hub_face_s);
    s.push_back(w.hub_face_s + 0.5 * w.disc.thickness().at(w.hub_face_s));
  }
  for (const auto *holes : {&w.bolts, &w.vents})
    if (!holes->empty()) s.push_back(holes->front().s);
  if (has_flange(w)) {
    const double t = w.disc.thickness().at(end);
    s.insert(s.end(), {end - t, end - 0.4 * t});
  }
  return s;
}

class Shift {
 public:
  Shift(const WheelLayout &from, const WheelLayout &to) {
    const std::vector<double> a = marks(from), b = marks(to);
    if (a.size() != b.size())
      throw Error(
          "thin: the disc has other bends or holes than at the start: the mesh cannot follow");
    for (std::size_t i = 0; i < a.size(); ++i) pairs_.push_back({a[i], b[i]});
    std::sort(pairs_.begin(), pairs_.end());
    std::vector<std::pair<double, double>> kept;
    for (const auto &p : pairs_) {
      if (!kept.empty() && p.first < kept.back().first + 1e-9) continue;
      if (!kept.empty() && !(p.second > kept.back().second))
        throw Error("thin: the border at " + std::to_string(p.second) +
                    " mm along the mid-line passes its neighbour: the mesh cannot follow; start "
                    "nearer to the result or narrow the bounds");
      kept.push_back(p);
    }
    pairs_ = kept;
  }
  double operator()(double s) const {
    auto above = std::upper_bound(pairs_.begin(), pairs_.end(), s,
                                  [](double x, const auto &p) { return x < p.first; });
    above = std::clamp(above, pairs_.begin() + 1, pairs_.end() - 1);
    const auto &[a0, b0] = *(above - 1);
    const auto &[a1, b1] = *above;
    if (s == a1) return b1;  // no rounding on the last one
    return b0 + (b1 - b0) * (s - a0) / (a1 - a0);
  }

 private:
  std::vector<std::pair<double, double>> pairs_;
};

}  // namespace

ChartMesh moved_chart(const ChartMesh &chart, const WheelLayout &from, const WheelLayout &to) {
  const Shift shift(from, to);
  ChartMesh moved = chart;
  for (ChartNode &node : moved.nodes) node.s = shift(node.s);
  for (double &s : moved.circles) s = shift(s);
  for (double &s : moved.flange_s) s = shift(s);
  moved.holes = to.bolts;
  moved.holes.insert(moved.holes.end(), to.vents.begin(), to.vents.end());
  const auto sigma = [&](double old) { return to.disc.sigma(shift(from.disc.s_at(old))); };
  for (HoleRing &ring : moved.rings) {
    ring.centre_sigma = sigma(ring.centre_sigma);
    for (auto &p : ring.border) p[0] = sigma(p[0]);
  }
  return moved;
}

}  // namespace felloe
