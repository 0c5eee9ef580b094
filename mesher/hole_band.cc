// SPDX-License-Identifier: GPL-3.0-or-later
// Searches the best fill of a band with holes and copies it round the wheel.
#include "mesher/hole_band.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "mesher/band_sector.h"
#include "mesher/error.h"

namespace felloe {
namespace {

constexpr double quality_gate = 0.2;

std::string shown(double x) {
  char text[32];
  std::snprintf(text, sizeof text, "%.3g", x);
  return text;
}

/// Nodes and quads of the whole band from the meshed sector.
class BandCopies {
 public:
  BandCopies(const HoleBand &band, const SectorBoundary &boundary, const QuadPatch &patch)
      : band_(band), patch_(patch), start_(boundary.start) {
    for (const auto &loop : boundary.loops) origin_.insert(origin_.end(), loop.begin(), loop.end());
    origin_.insert(origin_.end(), boundary.strip_nodes.begin(), boundary.strip_nodes.end());
  }

  void turn(int copies, FilledBand &out) {
    const int n = static_cast<int>(patch_.nodes.size());
    const int first = static_cast<int>(out.nodes.size());
    for (int j = 0; j < copies; ++j)
      for (const auto &p : patch_.nodes) {
        BandNode node = description(p);
        node.at[1] += 2 * pi * j / copies;
        node.index = node.place == BandPlace::ring
                         ? node.index
                         : wrapped(node.index + j * (band_.n_theta / copies));
        node.hole += j * static_cast<int>(band_.holes.size()) / copies;
        out.nodes.push_back(node);
      }
    for (int j = 0; j < copies; ++j)
      for (const auto &q : in_chart_order()) {
        std::array<int, 4> quad{};
        for (int v = 0; v < 4; ++v)
          quad[v] = first + ((j + q[v].turn) % copies + copies) % copies * n + q[v].node;
        out.quads.push_back(quad);
      }
  }

  void mirror_and_turn(int copies, FilledBand &out) {
    const int n = static_cast<int>(patch_.nodes.size()), cells = band_.n_theta / (2 * copies);
    const int n_phi = static_cast<int>(out.rings.front().phi.size());
    std::vector<int> index(2 * copies * n, -1);  // by (copy, side, node)
    for (int j = 0; j < copies; ++j)
      for (int side = 0; side < 2; ++side)
        for (int i = 0; i < n; ++i) {
          const PatchNode &p = patch_.nodes[i];
          int &here = index[(2 * j + side) * n + i];
          const bool slides = p.freedom == Freedom::along_x;
          if (slides && side == 1 && p.at[1] == 0) {
            here = index[2 * j * n + i];
            continue;
          }
          if (slides && side == 1 && p.at[1] != 0) {  // shared with the copy before
            if (j > 0) here = index[2 * (j - 1) * n + i];
            continue;
          }
          BandNode node = description(p);
          const double y = side == 0 ? p.at[1] : -p.at[1];
          node.at[1] = band_.holes[j].theta + y;
          if (node.place == BandPlace::ring) {
            if (side == 1) node.index = (n_phi - node.index) % n_phi;
            node.hole = j;
          } else {
            const int k = node.index - start_;
            node.index = wrapped(start_ + 2 * cells * j + (side == 0 ? k : -k));
          }
          here = static_cast<int>(out.nodes.size());
          out.nodes.push_back(node);
        }
    for (int i = 0; i < n; ++i)  // the first copy's lower mirror line is the last one's upper
      if (index[n + i] < 0) index[n + i] = index[2 * (copies - 1) * n + i];
    for (int j = 0; j < copies; ++j)
      for (const auto &q : in_chart_order()) {
        const int *a = &index[2 * j * n], *b = a + n;
        out.quads.push_back({a[q[0].node], a[q[1].node], a[q[2].node], a[q[3].node]});
        out.quads.push_back({b[q[2].node], b[q[3].node], b[q[0].node], b[q[1].node]});
      }
  }

 private:
  int wrapped(int k) const { return (k % band_.n_theta + band_.n_theta) % band_.n_theta; }

  /// What the boundary says of a node, with circle numbers counted on the whole circle.
  BandNode description(const PatchNode &p) const {
    BandNode node;
    if (p.origin >= 0) node = origin_[p.origin];
    if (node.place == BandPlace::lower_circle || node.place == BandPlace::upper_circle)
      node.index += start_;
    node.at = p.at;
    return node;
  }

  /// Corners (0,0) (1,0) (0,1) (1,1), first direction along sigma.
  std::vector<std::array<QuadCorner, 4>> in_chart_order() const {
    std::vector<std::array<QuadCorner, 4>> result;
    for (const auto &q : patch_.quads) {
      int best = 0;
      double most = -1e300;
      for (int v = 0; v < 4; ++v) {
        const double along = patch_.corner(q[(v + 1) % 4])[0] - patch_.corner(q[v])[0] +
                             patch_.corner(q[(v + 2) % 4])[0] - patch_.corner(q[(v + 3) % 4])[0];
        if (along > most + 1e-12) {
          most = along;
          best = v;
        }
      }
      result.push_back({q[best], q[(best + 1) % 4], q[(best + 3) % 4], q[(best + 2) % 4]});
    }
    return result;
  }

  const HoleBand &band_;
  const QuadPatch &patch_;
  int start_ = 0;
  std::vector<BandNode> origin_;
};

/// The best sector found so far.
struct BestSector {
  double quality = -1;
  double score = -1e300;
  SectorBoundary boundary;
  QuadPatch patch;
  HoleRing ring;
};

/// Quads that the region would take with edges as long as those of its border, on average.
double expected_quads(const SectorBoundary &b) {
  double area = 0, length = 0, edges = 0;
  for (const auto &loop : b.loops)
    for (std::size_t i = 0; i < loop.size(); ++i) {
      const Vec2 &p = loop[i].at, &q = loop[(i + 1) % loop.size()].at;
      area += 0.5 * (p[0] * q[1] - p[1] * q[0]);
      length += std::hypot(q[0] - p[0], q[1] - p[1]);
      edges += 1;
    }
  return area * edges * edges / (length * length) + static_cast<double>(b.strip_quads.size());
}

/// Shape first; between good shapes, the one with the fewest quads.
double score(double quality, double quads, double expected) {
  return std::min(quality, 0.65) - 0.1 * quads / expected;
}

/// Fewest edges, in fours, with which the sagitta of the border's chords stays below a third of the
/// ring's width.
int edges_for_curvature(const HoleRing &ring, double width) {
  const double rho = ring.border[0][0] - ring.centre_sigma;
  int n = 8;
  while (rho * (1 - std::cos(pi / n)) > width / 3) n += 4;
  return n;
}

/// Quality at which the search ends: the more nodes have been smoothed the less is asked, so that
/// large sectors do not cost minutes. Counted in nodes, not in time: same input, same mesh.
double acceptable(double effort) {
  if (effort > 80000) return quality_gate;
  if (effort > 40000) return 0.3;
  return 0.65 - 0.25 * std::min(1.0, effort / 25000);
}

/// The sector smoothed to the end.
BestSector polished(const BestSector &best) {
  BestSector smoothed = best;
  smooth(smoothed.patch, 100);
  smoothed.quality = smallest_scaled_jacobian(smoothed.patch);
  return smoothed.quality > best.quality ? smoothed : best;
}

BestSector best_sector(const Sheet &sheet, const HoleBand &band, const BandSector &sector) {
  Hole at_zero = band.holes[0];
  at_zero.theta = 0;
  BestSector best;
  double effort = 0;  // nodes smoothed so far: large sectors content themselves sooner
  const int base = 4 * ((band.ring_edges + 3) / 4);
  for (const double factor : {1.0, 0.8, 0.6, 0.45})
    for (const int more : {0, 4, 8})
      for (const int rows : {0, 2, -2}) {
        const double width = factor * band.ring_width;
        const int fewest = edges_for_curvature(hole_ring(sheet, at_zero, 4, width), width);
        const SectorTrial trial{width, std::max(base, fewest) + more, rows};
        const HoleRing ring = hole_ring(sheet, at_zero, trial.n_phi, trial.width);
        const SectorBoundary boundary = sector_boundary(band, sector, ring, trial);
        const double expected = expected_quads(boundary);
        for (const FillTrial &fill : fill_trials()) {
          const QuadPatch patch = fill_sector(boundary, fill);
          effort += static_cast<double>(patch.nodes.size());
          if (patch.quads.empty()) continue;
          const double quality = smallest_scaled_jacobian(patch);
          const double points = score(quality, static_cast<double>(patch.quads.size()), expected);
          if (points > best.score) best = {quality, points, boundary, patch, ring};
        }
        if (best.quality > acceptable(effort)) return polished(best);
      }
  return polished(best);
}

}  // namespace

BandSector band_sector(const HoleBand &band) {
  const int n = band.n_theta, count = static_cast<int>(band.holes.size());
  const double place = (band.holes[0].theta - band.shift) * n / (2 * pi);
  if (n % (2 * count) == 0 && n >= 4 * count && std::abs(place - std::round(place)) < 1e-9)
    return {true, count};
  for (int copies = count; copies > band.symmetry; --copies)
    if (count % copies == 0 && copies % band.symmetry == 0 && n % (2 * copies) == 0)
      return {false, copies};
  return {false, band.symmetry};
}

FilledBand fill_band(const Sheet &sheet, const HoleBand &band) {
  const BandSector sector = band_sector(band);
  const BestSector best = best_sector(sheet, band, sector);
  if (best.quality < quality_gate)
    throw Error(band.name + ": the mesh between the rings reaches a scaled Jacobian of " +
                shown(best.quality) + ", the limit is " + shown(quality_gate) +
                "; give the holes more distance from each other and from bends, or raise the "
                "mesh density");
  FilledBand out;
  out.quality = best.quality;
  for (const Hole &hole : band.holes) out.rings.push_back(turned_ring(best.ring, hole.theta));
  BandCopies copies(band, best.boundary, best.patch);
  if (sector.half_pitch)
    copies.mirror_and_turn(sector.copies, out);
  else
    copies.turn(sector.copies, out);
  return out;
}

}  // namespace felloe
