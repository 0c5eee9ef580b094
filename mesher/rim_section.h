// SPDX-License-Identifier: GPL-3.0-or-later
// The rolled rim's section: tyre-side polygon of the contour, and the mid-line half a thickness in.
#pragma once
#include <vector>

#include "mesher/layout.h"
#include "mesher/rim_contour.h"

namespace felloe {

/// Axial distances count from the outboard flange plane (inner face of the flange), inboard
/// positive. The slopes into the well stand at 55 degrees and humps are left out: both common
/// practice or simplification, no source.
struct RimSection {
  std::vector<MeridianCorner> tyre_side;  ///< corners and radii of the tyre-side surface
  Sheet sheet;                            ///< mid-line from the outboard to the inboard flange edge
  std::vector<Feature> features;
  double well_s0 = 0, well_s1 = 0;  ///< straight stretch of the well bottom on the mid-line
};

/// Inside radius of the well bottom, where the disc flange sits [mm].
double rim_inside_radius(const RimShape &, const RimContour &);

/// z of the outboard end of the well bottom's straight stretch [mm].
double well_outboard_z(const RimShape &, const RimContour &);

/// z of the innermost place the well bottom's straight stretch can reach [mm].
double well_inboard_limit_z(const RimShape &, const RimContour &);

/// The section with a well bottom that is straight down to z = well_inboard_z at least. The value
/// is raised to the contour's smallest well width; it must not pass well_inboard_limit_z().
RimSection rim_section(const RimShape &, const RimContour &, double well_inboard_z);

}  // namespace felloe
