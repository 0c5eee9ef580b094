// SPDX-License-Identifier: GPL-3.0-or-later
// Turns the circles near rows of holes that stand beside the angular grid.
#include <cmath>

#include "mesher/bands.h"

namespace felloe {
namespace {

/// Circles first ... last that are turned alike.
struct Anchor {
  std::size_t first = 0, last = 0;
  double shift = 0;
};

double row_shift(const HoleRow &row, int n_theta) {
  const double d = 2 * pi / n_theta, place = row.holes.front().theta / d;
  const double off = place - std::round(place);
  return std::abs(off) < 1e-9 ? 0 : off * d;
}

}  // namespace

std::vector<double> circle_shifts(const WheelLayout &l, const Bands &bands,
                                  const std::vector<HoleRow> &rows, int n_theta) {
  std::vector<Anchor> anchors;
  for (std::size_t b = 0; b < bands.row.size(); ++b)
    if (bands.row[b] >= 0) anchors.push_back({b, b + 1, row_shift(rows[bands.row[b]], n_theta)});
  const std::size_t last = bands.circles.size() - 1;
  if (has_flange(l)) {
    std::size_t flange = last;
    while (flange > 0 && bands.circles[flange - 1] > l.flange_s0 - 1e-9) --flange;
    anchors.push_back({flange, last, 0});
  }
  std::vector<double> shifts(bands.circles.size(), 0.0);
  for (std::size_t i = 0; i + 1 < anchors.size(); ++i)
    if (anchors[i].last >= anchors[i + 1].first && anchors[i].shift != anchors[i + 1].shift)
      return shifts;
  for (std::size_t i = 0; i < anchors.size(); ++i) {
    const Anchor &a = anchors[i];
    const std::size_t from = i == 0 ? 0 : a.first, to = i + 1 == anchors.size() ? last : a.last;
    for (std::size_t c = from; c <= to; ++c) shifts[c] = a.shift;
    if (i + 1 == anchors.size()) break;
    const Anchor &b = anchors[i + 1];
    const double sigma0 = l.disc.sigma(bands.circles[a.last]);
    const double sigma1 = l.disc.sigma(bands.circles[b.first]);
    for (std::size_t c = a.last + 1; c < b.first; ++c) {
      const double u = (l.disc.sigma(bands.circles[c]) - sigma0) / (sigma1 - sigma0);
      shifts[c] = a.shift + u * (b.shift - a.shift);
    }
  }
  return shifts;
}

}  // namespace felloe
