// SPDX-License-Identifier: GPL-3.0-or-later
// Open-standard rim contours as rows of one table.
#pragma once
#include <string>
#include <vector>

#include "mesher/meridian.h"
#include "mesher/wheel.h"

namespace felloe {

/// One contour of a 5-degree drop-centre rim. Lengths in mm.
struct RimContour {
  std::string name, summary;
  double smallest_width_code = 0, smallest_diameter_code = 0, largest_diameter_code = 0;
  double flange_width = 0;   ///< B
  double flange_height = 0;  ///< G
  double seat_width = 0;     ///< P
  double well_depth = 0;     ///< H
  double well_width = 0;     ///< L
  double well_position = 0;  ///< M
  double flange_radius = 0;  ///< R2
  std::string source, confidence;
};

const std::vector<RimContour> &rim_contours();

/// Specified rim diameter D at the bead seat's heel [mm].
/// D = 25.4 code - 0.8 up to code 16, 25.4 code + 4.8 from code 17. From memory of ISO 4000-1.
double specified_rim_diameter(double diameter_code);

/// Distance between the flanges' inner faces, 25.4 x width code [mm]. From memory of ISO 4000-1.
double rim_width(double width_code);

}  // namespace felloe
