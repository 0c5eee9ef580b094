// SPDX-License-Identifier: GPL-3.0-or-later
// The meridian section of a 3D mesh at a given angle.
#pragma once
#include <array>
#include <vector>

#include "post/skin.h"

namespace felloe {

/// What a half plane that starts at the wheel axis cuts out of the material.
struct SectionCut {
  std::vector<Vec2> points;  ///< (r, z) [mm]; triangles do not share points
  std::vector<double> values;
  std::vector<std::array<int, 3>> triangles;
  std::vector<int> cells;                    ///< of the mesh, one a triangle
  std::vector<std::array<Vec2, 2>> outline;  ///< line pieces of the surface of each part
};

/// Cuts every cell, split into divisions^3 by its quadratic shape functions.
/// theta [rad], from x towards y. skin: of the same mesh, for the outline.
SectionCut section_cut(const Mesh &, const std::vector<double> &nodal_values, const Skin &skin,
                       double theta, int divisions);

}  // namespace felloe
