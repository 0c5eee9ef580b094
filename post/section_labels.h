// SPDX-License-Identifier: GPL-3.0-or-later
// What the section drawing says, and about which point: the content without its placement.
#pragma once
#include <string>
#include <vector>

#include "mesher/layout.h"

namespace felloe {

/// A text about a point of the section.
struct SectionLabel {
  Vec2 point{};  ///< (r, z) [mm]
  std::string text;
};

/// An axial dimension between two heights, with the radii at which its extension lines begin.
struct AxialDimension {
  Vec2 from{}, to{};  ///< (r, z) [mm]
  std::string text;
};

/// Diameters, rim sheet, flange on the rim, weld: what is read from the inboard side.
std::vector<SectionLabel> inboard_labels(const WheelLayout &);
/// Bends, sheet thickness, holes: what is read from the outboard side.
std::vector<SectionLabel> outboard_labels(const WheelLayout &);
/// Heights over the hub face, written below the axis.
std::vector<SectionLabel> heights(const WheelLayout &);
/// Width between the flanges, inset, and what else is measured along the axis above the section.
std::vector<AxialDimension> axial_dimensions(const WheelLayout &);

/// "15 x 6 J, inset 40 mm" or "plain disc".
std::string section_title(const WheelLayout &);

/// The bend that a disc feature names; null when there is none.
const MeridianPiece *piece_of(const WheelLayout &, const Feature &);

/// A length with at most `digits` decimals and no trailing zeros.
std::string shown_length(double value, int digits = 1);

}  // namespace felloe
