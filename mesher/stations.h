// SPDX-License-Identifier: GPL-3.0-or-later
// Where the circles of the structured stretches lie along the mid-lines.
#pragma once
#include <functional>
#include <string>
#include <vector>

#include "mesher/chart_mesh.h"
#include "mesher/layout.h"

namespace felloe {

/// Stations after s0 up to and including s1: cells grow with the wanted size h(s) [mm], at least
/// `fewest` of them.
std::vector<double> graded_stations(double s0, double s1, const std::function<double(double)> &size,
                                    int fewest);

/// Cells through the disc's thickness: even for welded discs (the fillet meets the whole end face
/// in three blocks), at least two where a seat cone begins inside the sheet.
int disc_layer_count(const WheelLayout &, const MeshSize &);

/// Circles of the section model's disc, from the bore to the outer end: those that the chart has
/// where there are no holes.
struct DiscStations {
  std::vector<double> s;
  int flange0 = 0;  ///< index of layout.flange_s0; the last index on a disc without rim
};
DiscStations disc_stations(const WheelLayout &, const MeshSize &);

/// Circles of the rim. Over the overlap they face the disc's flange circles one by one; the weld's
/// leg is cut into `weld_cells`; two circles lie 0.4 and 1.0 thicknesses beyond the weld's toe,
/// where the stress is read for the toe.
struct RimStations {
  std::vector<double> s;
  int overlap0 = 0, root = 0, toe = 0;  ///< indices
};
RimStations rim_stations(const WheelLayout &, const MeshSize &, const std::vector<double> &flange_s,
                         int weld_cells);

/// Name of the tyre-side surface at rim s: one of the flanges, bead seats and the well, or empty.
std::string rim_surface_at(const WheelLayout &, double s);

}  // namespace felloe
