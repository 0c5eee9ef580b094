// SPDX-License-Identifier: GPL-3.0-or-later
// Mass and balance of a body from its mesh.
#pragma once
#include <map>

#include "mesher/mesh.h"
#include "solver/material.h"

namespace felloe {

struct MassProperties {
  double total = 0;              ///< [kg]
  std::map<Part, double> parts;  ///< [kg]
  double static_unbalance = 0;   ///< |integral of (x, y) dm| [kg mm]
  double couple_unbalance = 0;   ///< |integral of (x z, y z) dm| [kg mm2]
};

/// Quadratic geometry, 3 x 3 x 3 Gauss points a cell. Parts without a material: Error.
MassProperties mass_properties(const Mesh &, const std::map<Part, Material> &);

}  // namespace felloe
