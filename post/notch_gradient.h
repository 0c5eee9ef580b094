// SPDX-License-Identifier: GPL-3.0-or-later
// Gradient of the computed stress at a node of the wheel.
#pragma once
#include <vector>

#include "mesher/mesh.h"

namespace felloe {

/// Related gradient |grad s| / s [1/mm] of nodal values at a node, fitted to the nodes of its part
/// in the cells round it; see related_gradient().
double related_gradient_at(const Mesh &, const std::vector<double> &values, int node);

}  // namespace felloe
