// SPDX-License-Identifier: GPL-3.0-or-later
// Stiffness of the free body from its cells.
#pragma once
#include <map>
#include <vector>

#include "solver/detail/block_matrix.h"
#include "solver/detail/hex_geometry.h"
#include "solver/detail/nodal_frame.h"

namespace felloe::detail {

/// Isotropic constants of a cell, Lame's lambda and mu [MPa].
struct Lame {
  double lambda = 0, mu = 0;
};

/// From Young's modulus [MPa] and Poisson's ratio.
Lame lame(const Material &);
/// Of a part of the mesh. Throws Error when it has no material or one that is not elastic.
Lame lame(Part, const std::map<Part, Material> &);

/// The stiffness in the nodal frames, 3 x 3 x 3 Gauss points a cell.
/// The volumes of the cells [mm3] are returned too.
/// The sums are taken in a fixed order: equal meshes give equal bits on any number of processors.
BlockMatrix stiffness(const Mesh &, const HexGeometry &, const std::vector<Lame> &of_cells,
                      const std::vector<Axes> &of_nodes, NodalFrame, std::vector<double> &volumes);

}  // namespace felloe::detail
