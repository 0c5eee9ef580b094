// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesher/band_sector.h"

#include <algorithm>
#include <cmath>

namespace felloe {
namespace {

/// Even number of edges for a line whose edges should be h0 long at one end and h1 at the other.
int even_divisions(double length, double h0, double h1, int extra) {
  return std::max(2, 2 * static_cast<int>(std::lround(length / (h0 + h1))) + extra);
}

/// Fractions i / n of a line with edge lengths that run evenly from about h0 to h1.
double graded_fraction(int i, int n, double h0, double h1) {
  if (i == n) return 1;
  const double ratio = std::max(0.4, std::min(2.5, h1 / h0)), u = double(i) / n;
  // edge density falls linearly: integral of (1 + (ratio - 1) x), scaled to 1
  return u * (1 + 0.5 * (ratio - 1) * u) / (1 + 0.5 * (ratio - 1));
}

/// Collects one loop.
class Loop {
 public:
  void add(const BandNode &node, int ideal, bool slides = false) {
    nodes.push_back(node);
    valence.push_back(ideal);
    slide.push_back(slides);
  }
  /// Inner nodes of a line theta = y between x0 and x1.
  void add_line(double y, double x0, double h0, double x1, double h1, int n, int ideal,
                bool slides) {
    for (int i = 1; i < n; ++i)
      add({BandPlace::inner, 0, 0, {x0 + (x1 - x0) * graded_fraction(i, n, h0, h1), y}}, ideal,
          slides);
  }
  void move_to(SectorBoundary &b) {
    b.loops.push_back(nodes);
    b.ideal_valence.push_back(valence);
    b.slides.push_back(slide);
  }
  std::vector<BandNode> nodes;
  std::vector<int> valence;
  std::vector<bool> slide;
};

/// From the hole's mirror line y = 0 to the one between two holes.
SectorBoundary half_pitch(const HoleBand &band, const HoleRing &ring, const SectorTrial &trial) {
  const int n = band.n_theta, count = static_cast<int>(band.holes.size()), cells = n / (2 * count);
  const int n_phi = trial.n_phi, half = n_phi / 2;
  const double d = 2 * pi / n, x0 = band.sigma0, x1 = band.sigma1;
  const double low = ring.border[half][0], high = ring.border[0][0];
  const double e = (high - low) * pi / n_phi;
  SectorBoundary b;
  b.start = static_cast<int>(std::lround(band.holes[0].theta / d));
  Loop loop;
  loop.add({BandPlace::lower_circle, 0, 0, {x0, 0}}, 1);
  loop.add_line(0, x0, d, low, e, even_divisions(low - x0, d, e, 0), 2, true);
  for (int m = half; m >= 0; --m)
    loop.add({BandPlace::ring, m, 0, {ring.border[m][0], ring.border[m][1] - ring.centre_theta}},
             m == 0 || m == half ? 1 : 2);
  loop.add_line(0, high, e, x1, d, even_divisions(x1 - high, e, d, 0), 2, true);
  for (int k = 0; k <= cells; ++k)
    loop.add({BandPlace::upper_circle, k, 0, {x1, 2 * pi * k / n}}, k == 0 || k == cells ? 1 : 2);
  const double far = 2 * pi * cells / n;
  loop.add_line(far, x1, d, x0, d, even_divisions(x1 - x0, d, d, trial.extra_rows), 2, true);
  for (int k = cells; k > 0; --k)
    loop.add({BandPlace::lower_circle, k, 0, {x0, 2 * pi * k / n}}, k == cells ? 1 : 2);
  loop.move_to(b);
  return b;
}

/// Whole pitches; the two straight sides carry the same nodes.
SectorBoundary whole_pitches(const HoleBand &band, int copies, const HoleRing &ring,
                             const SectorTrial &trial) {
  const int n = band.n_theta, count = static_cast<int>(band.holes.size()), cells = n / copies;
  const double d = 2 * pi / n, x0 = band.sigma0, x1 = band.sigma1;
  SectorBoundary b;
  b.period = 2 * pi / copies;
  b.start = static_cast<int>(std::lround((band.holes[0].theta - pi / count) / d));
  const double near = 2 * pi * b.start / n, far = 2 * pi * (b.start + cells) / n;
  const int rows = even_divisions(x1 - x0, d, d, trial.extra_rows);
  Loop outer;
  outer.add({BandPlace::lower_circle, 0, 0, {x0, near}}, 2);
  outer.add_line(near, x0, d, x1, d, rows, 4, false);
  for (int k = 0; k <= cells; ++k)
    outer.add({BandPlace::upper_circle, k, 0, {x1, 2 * pi * (b.start + k) / n}}, 2);
  outer.add_line(far, x1, d, x0, d, rows, 4, false);
  for (int k = cells; k > 0; --k)
    outer.add({BandPlace::lower_circle, k, 0, {x0, 2 * pi * (b.start + k) / n}}, 2);
  // the far side runs down where the near side runs up
  const int far_top = rows + cells;
  for (int i = 0; i <= rows; ++i) b.repeats.push_back({far_top + i, rows - i});
  outer.move_to(b);
  for (int h = 0; h < count / copies; ++h) {
    Loop hole;
    for (int m = trial.n_phi; m > 0; --m) {
      const auto &p = ring.border[m % trial.n_phi];
      hole.add({BandPlace::ring,
                m % trial.n_phi,
                h,
                {p[0], p[1] - ring.centre_theta + band.holes[h].theta}},
               2);
    }
    hole.move_to(b);
  }
  return b;
}

}  // namespace

SectorBoundary sector_boundary(const HoleBand &band, const BandSector &sector, const HoleRing &ring,
                               const SectorTrial &trial) {
  return sector.half_pitch ? half_pitch(band, ring, trial)
                           : whole_pitches(band, sector.copies, ring, trial);
}

QuadPatch fill_sector(const SectorBoundary &b, const FillTrial &trial) {
  std::vector<std::vector<Vec2>> loops;
  QuadPatch patch;
  patch.period = b.period;
  for (std::size_t l = 0; l < b.loops.size(); ++l) {
    loops.emplace_back();
    for (std::size_t i = 0; i < b.loops[l].size(); ++i) {
      const BandNode &node = b.loops[l][i];
      loops.back().push_back(node.at);
      const Freedom freedom = node.place != BandPlace::inner ? Freedom::fixed
                              : b.slides[l][i]               ? Freedom::along_x
                                                             : Freedom::free;
      patch.nodes.push_back(
          {node.at, freedom, b.ideal_valence[l][i], static_cast<int>(patch.nodes.size())});
    }
  }
  const PlanarQuads fill = planar_fill(loops, trial);
  std::vector<QuadCorner> corner(fill.nodes.size());
  for (std::size_t i = 0; i < corner.size(); ++i) corner[i] = {static_cast<int>(i), 0};
  for (const auto &[far, near] : b.repeats)
    if (far < static_cast<int>(corner.size())) corner[far] = {near, 1};
  for (std::size_t i = patch.nodes.size(); i < fill.nodes.size(); ++i)
    patch.nodes.push_back({fill.nodes[i], Freedom::free, 4, -1});
  for (const auto &q : fill.quads)
    patch.quads.push_back({corner[q[0]], corner[q[1]], corner[q[2]], corner[q[3]]});
  if (patch.quads.empty()) return patch;
  smooth(patch, 3);
  improve_valences(patch);
  smooth(patch, 40);
  return patch;
}

}  // namespace felloe
