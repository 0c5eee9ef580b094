// SPDX-License-Identifier: GPL-3.0-or-later
// Spacing of circles: graded by the wanted size, forced where something begins.
#include "mesher/stations.h"

#include <algorithm>
#include <cmath>

#include "mesher/bands.h"
#include "mesher/chart_halving.h"

namespace felloe {
namespace {

constexpr double growth = 1;  // edge length gained per mm of distance from the weld

/// A stretch of mid-line between two forced stations.
struct Border {
  double s;
  int fewest;  // cells up to the next border
};

/// Borders of all pieces between s0 and s1. Bends get one cell for every 50 degrees: the parabola
/// through three points of the arc leaves the volume of a whole wheel right to 2e-4.
std::vector<Border> piece_borders(const Sheet &sheet, double s0, double s1) {
  std::vector<Border> borders;
  for (const auto &p : sheet.meridian().pieces()) {
    const double a = std::max(p.s0, s0), b = std::min(p.s1, s1);
    const double turn = std::abs(p.curvature) * (b - a);
    if (b - a > 1e-7)
      borders.push_back({a, std::max(1, static_cast<int>(std::ceil(turn / (50 * pi / 180))))});
  }
  return borders;
}

void append_graded(std::vector<double> &s, std::vector<Border> borders, double end,
                   const std::function<double(double)> &size) {
  borders.push_back({end, 0});
  for (std::size_t i = 0; i + 1 < borders.size(); ++i) {
    const auto more = graded_stations(s.back(), borders[i + 1].s, size, borders[i].fewest);
    s.insert(s.end(), more.begin(), more.end());
  }
}

}  // namespace

std::vector<double> graded_stations(double s0, double s1, const std::function<double(double)> &size,
                                    int fewest) {
  const int samples = 200;
  std::vector<double> cells(samples + 1, 0.0);  // integral of ds / h
  for (int i = 0; i < samples; ++i)
    cells[i + 1] = cells[i] + (s1 - s0) / samples / size(s0 + (s1 - s0) * (i + 0.5) / samples);
  const int n = std::max(fewest, static_cast<int>(std::lround(cells.back())));
  std::vector<double> s;
  for (int k = 1, i = 0; k < n; ++k) {
    const double wanted = cells.back() * k / n;
    while (cells[i + 1] < wanted) ++i;
    s.push_back(s0 + (s1 - s0) * (i + (wanted - cells[i]) / (cells[i + 1] - cells[i])) / samples);
  }
  s.push_back(s1);
  return s;
}

/// With one more station in every cell.
template <class Between>
static std::vector<double> halved(const std::vector<double> &s, const Between &between) {
  std::vector<double> fine = {s.front()};
  for (std::size_t i = 1; i < s.size(); ++i) {
    fine.push_back(between(s[i - 1], s[i]));
    fine.push_back(s[i]);
  }
  return fine;
}

int disc_layer_count(const WheelLayout &w, const MeshSize &size) {
  int n = std::max(1, size.disc_layers);
  if (has_flange(w)) n += n % 2;
  for (const auto &h : w.bolts)
    if (h.cone_radius > 0) n = std::max(n, 2);
  return n;
}

DiscStations disc_stations(const WheelLayout &w, const MeshSize &size) {
  DiscStations out;
  out.s = bands(w, size, {}, circle_divisions(w, size)).circles;
  for (int i = 0; i < size.halvings; ++i)
    out.s = halved(out.s, [&](double a, double b) { return circle_between(w.disc, a, b); });
  out.flange0 = static_cast<int>(out.s.size()) - 1;
  if (has_flange(w))
    out.flange0 = static_cast<int>(
        std::lower_bound(out.s.begin(), out.s.end(), w.flange_s0 - 1e-9) - out.s.begin());
  return out;
}

RimStations rim_stations(const WheelLayout &w, const MeshSize &size,
                         const std::vector<double> &flange_s, int weld_cells) {
  const double t = w.rim.thickness().at(0), root = w.rim_weld_root_s, toe = w.rim_weld_toe_s;
  const double finer = size.edge / MeshSize{}.edge;
  // flanges carry little: the cells that their bends ask for are enough
  const double flange_end = w.rim_features.front().s1, flange_begin = w.rim_features.back().s0;
  const auto in_flange = [&](const MeridianPiece &p) {
    return p.s1 < flange_end + 1e-6 || p.s0 > flange_begin - 1e-6;
  };
  const auto wanted = [&](double s) {
    const double away = std::max({0.0, root - s, s - toe - t});
    double h = std::min(1.3 * size.edge, size.weld_edge + growth * away);
    // and beside the end of the press fit
    if (s < w.rim_overlap_s0)
      h = std::min(h, 0.4 * t * finer + growth * std::max(0.0, w.rim_overlap_s0 - t - s));
    // bending stress peaks inside bends: edges of about 11 degrees there
    for (const auto &p : w.rim.meridian().pieces())
      if (p.is_bend() && !in_flange(p))
        h = std::min(h, std::max(0.2 / std::abs(p.curvature), 0.5 * t) * finer +
                            growth * std::max({0.0, p.s0 - s, s - p.s1}));
    return h;
  };
  const auto all_halved = [&](std::vector<double> s) {
    for (int i = 0; i < size.halvings; ++i)
      s = halved(s, [](double a, double b) { return 0.5 * (a + b); });
    return s;
  };
  RimStations out;
  out.s = {0};
  append_graded(out.s, piece_borders(w.rim, 0, w.rim_overlap_s0), w.rim_overlap_s0, wanted);
  out.s = all_halved(out.s);
  out.overlap0 = static_cast<int>(out.s.size()) - 1;
  for (std::size_t i = 1; i < flange_s.size(); ++i)
    out.s.push_back(w.rim_overlap_s0 + flange_s[i] - flange_s[0]);
  out.s.back() = root;
  out.root = static_cast<int>(out.s.size()) - 1;
  for (int i = 1; i <= weld_cells; ++i) out.s.push_back(root + (toe - root) * i / weld_cells);
  out.toe = static_cast<int>(out.s.size()) - 1;
  std::vector<double> beyond = {toe};
  for (const double reach : {0.4 * t, t}) {
    const auto more = graded_stations(beyond.back(), toe + reach, wanted, 1);
    beyond.insert(beyond.end(), more.begin(), more.end());
  }
  append_graded(beyond, piece_borders(w.rim, toe + t, w.rim.length()), w.rim.length(), wanted);
  beyond = all_halved(beyond);
  out.s.insert(out.s.end(), beyond.begin() + 1, beyond.end());
  return out;
}

std::string rim_surface_at(const WheelLayout &w, double s) {
  for (const auto &f : w.rim_features)
    if (s > f.s0 && s < f.s1 && f.name.find("bend") == std::string::npos) return f.name;
  return {};
}

}  // namespace felloe
