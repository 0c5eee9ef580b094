// SPDX-License-Identifier: GPL-3.0-or-later
// Boundary loops of half pitches and of whole pitches, and their fill.
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

/// The strip between the loop's last straight side, which starts at loop number `first`, and the
/// mirror line between two holes.
void add_strip(SectorBoundary &b, int first, int rows, int cells, const HoleBand &band) {
  const auto &loop = b.loops[0];
  const int n_loop = static_cast<int>(loop.size());
  const double far = 2 * pi * cells / band.n_theta;
  for (int i = 0; i <= rows; ++i) {
    BandNode node = loop[first + i];
    if (node.place != BandPlace::inner) node.index = cells;
    node.at[1] = far;
    b.strip_nodes.push_back(node);
    if (i > 0) b.strip_quads.push_back({first + i, first + i - 1, n_loop + i - 1, n_loop + i});
  }
}

/// From the hole's mirror line y = 0 to the one between two holes. The fill needs an even number
/// of cells on the circles; an odd last one becomes a strip.
SectorBoundary half_pitch(const HoleBand &band, const HoleRing &ring, const SectorTrial &trial) {
  const int n = band.n_theta, count = static_cast<int>(band.holes.size()), cells = n / (2 * count);
  const int filled = cells - cells % 2;
  const int n_phi = trial.n_phi, half = n_phi / 2;
  const bool strip = filled < cells;
  const double d = 2 * pi / n, x0 = band.sigma0, x1 = band.sigma1;
  const double low = ring.border[half][0], high = ring.border[0][0];
  const double e = (high - low) * pi / n_phi;
  SectorBoundary b;
  b.start = static_cast<int>(std::lround((band.holes[0].theta - band.shift) / d));
  Loop loop;
  loop.add({BandPlace::lower_circle, 0, 0, {x0, 0}}, 1);
  loop.add_line(0, x0, d, low, e, even_divisions(low - x0, d, e, 0), 2, true);
  for (int m = half; m >= 0; --m)
    loop.add({BandPlace::ring, m, 0, {ring.border[m][0], ring.border[m][1] - ring.centre_theta}},
             m == 0 || m == half ? 1 : 2);
  loop.add_line(0, high, e, x1, d, even_divisions(x1 - high, e, d, 0), 2, true);
  const int corner_valence = strip ? 2 : 1;
  for (int k = 0; k <= filled; ++k)
    loop.add({BandPlace::upper_circle, k, 0, {x1, 2 * pi * k / n}}, k == 0        ? 1
                                                                    : k == filled ? corner_valence
                                                                                  : 2);
  const int side = static_cast<int>(loop.nodes.size()) - 1;
  const int rows = even_divisions(x1 - x0, d, d, trial.extra_rows);
  loop.add_line(2 * pi * filled / n, x1, d, x0, d, rows, strip ? 4 : 2, !strip);
  for (int k = filled; k > 0; --k)
    loop.add({BandPlace::lower_circle, k, 0, {x0, 2 * pi * k / n}},
             k == filled ? corner_valence : 2);
  loop.move_to(b);
  if (strip) add_strip(b, side, rows, cells, band);
  return b;
}

/// Whole pitches; the two straight sides carry the same nodes.
SectorBoundary whole_pitches(const HoleBand &band, int copies, const HoleRing &ring,
                             const SectorTrial &trial) {
  const int n = band.n_theta, count = static_cast<int>(band.holes.size()), cells = n / copies;
  const double d = 2 * pi / n, x0 = band.sigma0, x1 = band.sigma1;
  SectorBoundary b;
  b.period = 2 * pi / copies;
  b.start = static_cast<int>(std::lround((band.holes[0].theta - band.shift - pi / count) / d));
  const double near = band.shift + 2 * pi * b.start / n;
  const double far = band.shift + 2 * pi * (b.start + cells) / n;
  const int rows = even_divisions(x1 - x0, d, d, trial.extra_rows);
  Loop outer;
  outer.add({BandPlace::lower_circle, 0, 0, {x0, near}}, 2);
  outer.add_line(near, x0, d, x1, d, rows, 4, false);
  for (int k = 0; k <= cells; ++k)
    outer.add({BandPlace::upper_circle, k, 0, {x1, band.shift + 2 * pi * (b.start + k) / n}}, 2);
  outer.add_line(far, x1, d, x0, d, rows, 4, false);
  for (int k = cells; k > 0; --k)
    outer.add({BandPlace::lower_circle, k, 0, {x0, band.shift + 2 * pi * (b.start + k) / n}}, 2);
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
  const int n_loops = static_cast<int>(patch.nodes.size());
  for (const BandNode &node : b.strip_nodes)
    patch.nodes.push_back({node.at,
                           node.place == BandPlace::inner ? Freedom::along_x : Freedom::fixed, 2,
                           static_cast<int>(patch.nodes.size())});
  const PlanarQuads fill = planar_fill(loops, trial);
  if (fill.quads.empty()) return patch;
  std::vector<QuadCorner> corner;
  for (int i = 0; i < static_cast<int>(fill.nodes.size()); ++i) {
    if (i < n_loops) {
      corner.push_back({i, 0});
      continue;
    }
    corner.push_back({static_cast<int>(patch.nodes.size()), 0});
    patch.nodes.push_back({fill.nodes[i], Freedom::free, 4, -1});
  }
  for (const auto &[far, near] : b.repeats) corner[far] = {near, 1};
  for (const auto &q : fill.quads)
    patch.quads.push_back({corner[q[0]], corner[q[1]], corner[q[2]], corner[q[3]]});
  for (const auto &q : b.strip_quads)
    patch.quads.push_back({QuadCorner{q[0], 0}, {q[1], 0}, {q[2], 0}, {q[3], 0}});
  smooth(patch, 3);
  improve_valences(patch);
  smooth(patch, 15);
  return patch;
}

}  // namespace felloe
