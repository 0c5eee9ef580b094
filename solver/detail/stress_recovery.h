// SPDX-License-Identifier: GPL-3.0-or-later
// Stresses at the nodes from the displacements.
#pragma once
#include <vector>

#include "solver/detail/assembly.h"
#include "solver/stress.h"

namespace felloe::detail {

/// Stress of each cell at its nodes, averaged over the cells of the node's part (all cells when the
/// mesh names no parts of nodes).
/// One sweep over the cells for all displacement fields [load][node], wheel frame.
/// @param wanted  of each node: whether its stress is wanted, the others get zero; empty: all
/// Throws Error naming the cell where the map folds over at a node (Jacobian not positive).
std::vector<std::vector<Stress>> nodal_stresses(
    const Mesh &, const std::vector<Lame> &of_cells,
    const std::vector<const std::vector<Vec3> *> &displacements,
    const std::vector<bool> &wanted = {});

}  // namespace felloe::detail
