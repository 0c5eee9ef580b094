// SPDX-License-Identifier: GPL-3.0-or-later
// Fills the chart between two circles and the rings of a row of equal holes.
#pragma once
#include <array>
#include <string>
#include <vector>

#include "mesher/hole_ring.h"

namespace felloe {

/// One row of equally spaced holes between the circles sigma0 and sigma1, both with n_theta nodes
/// at the angles shift + 2 pi k / n_theta.
struct HoleBand {
  std::string name;         ///< "bolt holes", for messages
  std::vector<Hole> holes;  ///< ascending theta
  double sigma0 = 0, sigma1 = 0;
  int n_theta = 0;
  double shift = 0;       ///< of the circles' nodes against theta = 0 [rad]
  int symmetry = 1;       ///< the mesh repeats under 2 pi / symmetry; divides n_theta and the count
  double ring_width = 0;  ///< widest ring border in the chart [-]
  int ring_edges = 16;    ///< fewest edges round a hole
};

enum class BandPlace { lower_circle, upper_circle, ring, inner };

struct BandNode {
  BandPlace place = BandPlace::inner;
  int index = 0;  ///< number on the circle, or radial line of the ring
  int hole = 0;   ///< owner of the ring, counted in the row
  Vec2 at{};      ///< (sigma, theta), theta not reduced to one turn
};

struct FilledBand {
  std::vector<BandNode> nodes;
  std::vector<std::array<int, 4>> quads;  ///< corners in the order of ChartQuad
  std::vector<HoleRing> rings;            ///< of each hole
  double quality = 0;                     ///< smallest scaled Jacobian in the chart
};

/// Sectors that are meshed and copied in a band: the half pitch from a hole's mirror line where
/// the grid allows it, else the smallest whole number of pitches.
struct BandSector {
  bool half_pitch = false;
  int copies = 1;  ///< of the whole sector, or of the mirrored pair
};
BandSector band_sector(const HoleBand &);

/// Runs several ring widths, edge counts and fills and keeps the best. Throws Error when its
/// smallest scaled Jacobian stays below 0.2.
FilledBand fill_band(const Sheet &, const HoleBand &);

}  // namespace felloe
