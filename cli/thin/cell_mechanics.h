// SPDX-License-Identifier: GPL-3.0-or-later
// What a few cells of a moved mesh do under given displacements: forces on their nodes and stress
// at one node, without a matrix.
#pragma once
#include <array>
#include <vector>

#include "mesher/vec3.h"
#include "solver/material.h"
#include "solver/stress.h"

namespace felloe {

using CellNodes = std::array<Vec3, 27>;  ///< of one cell, lexicographic as in Mesh

/// Forces with which nodes must be held under each of several displacements: K u of one quadratic
/// isoparametric cell, 3 x 3 x 3 Gauss points, [load][node] [N].
void add_cell_forces(const CellNodes &positions, const Material &,
                     const std::vector<CellNodes> &displacements, std::vector<CellNodes> &forces);

/// Gradients d/dx of the 27 shape functions at one node of a cell.
CellNodes gradients_at_node(const CellNodes &positions, int node);

/// Stress [MPa] from them.
Stress cell_stress(const CellNodes &gradients, const CellNodes &displacement, const Material &);

}  // namespace felloe
