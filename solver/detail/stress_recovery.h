// SPDX-License-Identifier: GPL-3.0-or-later
// Stresses at the nodes from the displacements.
#pragma once
#include <vector>

#include "solver/detail/assembly.h"
#include "solver/detail/hex_geometry.h"
#include "solver/stress.h"

namespace felloe::detail {

/// Stress of each cell at its nodes, averaged over the cells of the node's part (all cells when the
/// mesh names no parts of nodes).
/// One sweep over the cells for all displacement fields [load][node], wheel frame.
std::vector<std::vector<Stress>> nodal_stresses(
    const Mesh &, const HexGeometry &, const std::vector<Lame> &of_cells,
    const std::vector<const std::vector<Vec3> *> &displacements);

}  // namespace felloe::detail
