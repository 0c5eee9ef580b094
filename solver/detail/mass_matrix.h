// SPDX-License-Identifier: GPL-3.0-or-later
// Consistent mass of the free body from its cells.
#pragma once
#include <vector>

#include "solver/detail/block_matrix.h"
#include "solver/detail/hex_geometry.h"
#include "solver/detail/nodal_frame.h"

namespace felloe::detail {

/// M_ab = integral of rho N_a N_b dV in the nodal frames, quadratic shape functions,
/// 3 x 3 x 3 Gauss points a cell: exact for cells with straight, parallel edges. Same pattern as
/// stiffness(). Density [kg/mm3] of each cell.
/// Source: Hughes, The Finite Element Method, 1987, section 7.1 (consistent mass).
BlockMatrix mass_matrix(const Mesh &, const HexGeometry &,
                        const std::vector<double> &density_of_cells,
                        const std::vector<Axes> &of_nodes);

}  // namespace felloe::detail
