// SPDX-License-Identifier: GPL-3.0-or-later
// Where the structural stress of a weld toe is read on the mesh.
#pragma once
#include <vector>

#include "mesher/mesh.h"
#include "mesher/sheet.h"
#include "post/rated_places.h"
#include "post/weld_extrapolation.h"

namespace felloe {

/// A weld toe on a sheet's face eta = -1.
struct WeldToe {
  const Sheet *sheet = nullptr;
  Part part = Part::disc;
  double s = 0;     ///< of the toe along the mid-line [mm]
  double away = 1;  ///< +1 or -1: the way s runs from the toe over the plain sheet
};

/// A point for every angle at which the mesh has rows of nodes running away from the toe. Distances
/// in thicknesses are taken along the mid-line, those in mm along the face; between the nodes of a
/// cell stress is quadratic. Error naming the longest distance that fits when the rows end before
/// the last read-out, or when a section for the linearisation lies on no line of nodes.
std::vector<ToePoint> toe_points(const Mesh &, const WeldToe &, const ToeReadOut &);

}  // namespace felloe
