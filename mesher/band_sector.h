// SPDX-License-Identifier: GPL-3.0-or-later
// One sector of a band with holes: its boundary nodes, and the fill of the region inside them.
#pragma once
#include <vector>

#include "mesher/hole_band.h"
#include "mesher/planar_fill.h"
#include "mesher/quad_smoothing.h"

namespace felloe {

/// What one attempt varies.
struct SectorTrial {
  double width = 0;    ///< of the ring in the chart
  int n_phi = 16;      ///< edges round a hole
  int extra_rows = 0;  ///< added to the divisions of the sector's straight sides, even
};

/// Boundary nodes of a sector in loops for planar_fill. In a half pitch theta counts from the
/// hole's centre; else it is the sheet's.
struct SectorBoundary {
  std::vector<std::vector<BandNode>> loops;
  std::vector<std::vector<int>> ideal_valence;
  std::vector<std::vector<bool>> slides;  ///< nodes on mirror lines may move along them
  /// Nodes of the first loop on the sector's far side, and those of its near side that they repeat.
  std::vector<std::array<int, 2>> repeats;
  /// A structured strip along the far mirror line, where the half pitch has an odd number of cells:
  /// its nodes away from the loops, and its quads by number (loops first, then these).
  std::vector<BandNode> strip_nodes;
  std::vector<std::array<int, 4>> strip_quads;
  double period = 0;  ///< angle of the sector, 0 for a half pitch
  int start = 0;      ///< number of the circle node where the sector starts
};

/// ring: of a hole at theta = 0.
SectorBoundary sector_boundary(const HoleBand &, const BandSector &, const HoleRing &ring,
                               const SectorTrial &);

/// The fill, cleaned and smoothed well enough to compare trials; origin counts the nodes of all
/// loops and of the strip, -1 inside. No quads where the trial fails.
QuadPatch fill_sector(const SectorBoundary &, const FillTrial &);

}  // namespace felloe
