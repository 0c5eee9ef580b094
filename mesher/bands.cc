// SPDX-License-Identifier: GPL-3.0-or-later
// Edge lengths along the mid-line and the circles that follow from them.
#include "mesher/bands.h"

#include <algorithm>
#include <cmath>

namespace felloe {
namespace {

/// Wanted edge length along the mid-line, sampled evenly; neighbouring lengths grow by at most
/// `slope` per length.
class EdgeLengths {
 public:
  EdgeLengths(const WheelLayout &l, const MeshSize &size, int n_theta)
      : step_(l.disc.length() / n_samples), h_(n_samples + 1, size.edge) {
    const Sheet &disc = l.disc;
    for (int i = 0; i <= n_samples; ++i)
      limit_at(i, 2 * 2 * pi * disc.section_point(i * step_, 0)[0] / n_theta);
    // bending stress peaks inside bends: edges of about 10 degrees there
    const double finer = size.edge / MeshSize{}.edge;
    for (const auto &p : disc.meridian().pieces())
      if (p.is_bend()) limit(p.s0, p.s1, 0.18 * finer / std::abs(p.curvature));
    if (l.hub_face_s > 0) {  // and at the border of the bonded hub face
      const double t = disc.thickness().at(l.hub_face_s);
      limit(l.hub_face_s - 0.3 * t, l.hub_face_s + 0.8 * t, 0.25 * t * finer);
    }
    if (has_flange(l)) {
      const double end = disc.length();
      const double t = disc.thickness().at(end);
      limit(end - t, end, size.weld_edge);
      limit(end - 0.4 * t, end, 0.2 * t * finer);  // the stress for the toe is read at 0.4 t
    }
    grade();
  }

  void limit(double s0, double s1, double h) {
    const int first = std::max(0, static_cast<int>(std::floor(s0 / step_)));
    const int last = std::min(n_samples, static_cast<int>(std::ceil(s1 / step_)));
    for (int i = first; i <= last; ++i) limit_at(i, h);
  }
  void grade() {
    const double rise = slope * step_;
    for (int i = 1; i <= n_samples; ++i) limit_at(i, h_[i - 1] + rise);
    for (int i = n_samples - 1; i >= 0; --i) limit_at(i, h_[i + 1] + rise);
  }
  double at(double s) const {
    const double x = std::max(0.0, std::min<double>(n_samples, s / step_));
    const int i = std::min(n_samples - 1, static_cast<int>(x));
    return h_[i] + (x - i) * (h_[i + 1] - h_[i]);
  }

  /// Circles between a and b, both left out, spaced by the edge lengths.
  void divide(double a, double b, std::vector<double> &circles) const {
    constexpr int parts = 400;
    std::vector<double> edges(parts + 1, 0.0);  // integral of ds / h
    const double ds = (b - a) / parts;
    for (int i = 0; i < parts; ++i) edges[i + 1] = edges[i] + ds / at(a + (i + 0.5) * ds);
    const int n = std::max(1, static_cast<int>(std::lround(edges.back())));
    int i = 0;
    for (int k = 1; k < n; ++k) {
      const double wanted = edges.back() * k / n;
      while (edges[i + 1] < wanted) ++i;
      circles.push_back(a + ds * (i + (wanted - edges[i]) / (edges[i + 1] - edges[i])));
    }
  }

 private:
  static constexpr int n_samples = 4000;
  static constexpr double slope = 0.6;
  void limit_at(int i, double h) { h_[i] = std::min(h_[i], h); }
  double step_;
  std::vector<double> h_;
};

/// Circles that must be there, ascending, coincident ones once.
std::vector<double> required_circles(const WheelLayout &l,
                                     const std::vector<std::array<double, 2>> &hole_bands) {
  const double end = l.disc.length();
  std::vector<double> s = {0, end};
  if (l.hub_face_s > 0 && l.hub_face_s < end) {
    s.push_back(l.hub_face_s);
    s.push_back(l.hub_face_s + 0.5 * l.disc.thickness().at(l.hub_face_s));
  }
  if (has_flange(l)) {
    const double t = l.disc.thickness().at(end);
    s.insert(s.end(), {l.flange_s0, end - t, end - 0.4 * t});
  }
  for (const auto &b : hole_bands) s.insert(s.end(), {b[0], b[1]});
  std::sort(s.begin(), s.end());
  std::vector<double> kept;
  for (const double x : s) {
    const bool in_hole_band = std::any_of(hole_bands.begin(), hole_bands.end(), [&](const auto &b) {
      return x > b[0] + 1e-9 && x < b[1] - 1e-9;
    });
    if (x >= 0 && x <= end && !in_hole_band && (kept.empty() || x > kept.back() + 1e-9))
      kept.push_back(x);
  }
  return kept;
}

/// The hole band reaches two circle edges beyond its rings, or as far as the space goes where
/// little is left.
std::array<double, 2> hole_band(const HoleRow &row, const Sheet &disc, const MeshSize &size,
                                int n_theta) {
  const double margin = row.ring_width + 2 * 2 * pi / n_theta;
  const double low = disc.s_at(row.space_low), high = disc.s_at(row.space_high);
  double a = disc.s_at(std::max(row.space_low, row.wall_low - margin));
  double b = disc.s_at(std::min(row.space_high, row.wall_high + margin));
  if (a - low < 0.75 * size.edge) a = low;
  if (high - b < 0.75 * size.edge) b = high;
  return {a, b};
}

}  // namespace

Bands bands(const WheelLayout &l, const MeshSize &size, const std::vector<HoleRow> &rows,
            int n_theta) {
  std::vector<std::array<double, 2>> hole_bands;
  for (const auto &row : rows) hole_bands.push_back(hole_band(row, l.disc, size, n_theta));
  EdgeLengths lengths(l, size, n_theta);
  std::vector<double> fixed = required_circles(l, hole_bands);
  const auto is_hole_band = [&](double a) {
    for (std::size_t r = 0; r < hole_bands.size(); ++r)
      if (std::abs(hole_bands[r][0] - a) < 1e-8) return static_cast<int>(r);
    return -1;
  };
  // the borders of bends, where no required circle stands close by
  const std::vector<double> required = fixed;
  for (const auto &p : l.disc.meridian().pieces())
    for (const double s : {p.s0, p.s1}) {
      const auto above = std::lower_bound(required.begin(), required.end(), s - 1e-9);
      if (above == required.begin() || above == required.end()) continue;
      const double gap = std::min(*above - s, s - *(above - 1));
      if (is_hole_band(*(above - 1)) < 0 && gap > 0.2 * lengths.at(s) && p.s1 > p.s0)
        fixed.push_back(s);
    }
  std::sort(fixed.begin(), fixed.end());
  fixed.erase(
      std::unique(fixed.begin(), fixed.end(), [](double a, double b) { return b - a < 1e-9; }),
      fixed.end());
  for (std::size_t i = 0; i + 1 < fixed.size(); ++i)
    if (is_hole_band(fixed[i]) < 0) lengths.limit(fixed[i], fixed[i + 1], fixed[i + 1] - fixed[i]);
  lengths.grade();
  Bands result;
  for (std::size_t i = 0; i + 1 < fixed.size(); ++i) {
    result.circles.push_back(fixed[i]);
    const int row = is_hole_band(fixed[i]);
    if (row < 0) lengths.divide(fixed[i], fixed[i + 1], result.circles);
    result.row.resize(result.circles.size(), -1);
    if (row >= 0) result.row.back() = row;
  }
  result.circles.push_back(fixed.back());
  return result;
}

}  // namespace felloe
