// SPDX-License-Identifier: GPL-3.0-or-later
// Gradient of the computed stress at a node of the wheel.
#pragma once
#include <vector>

#include "mesher/mesh.h"

namespace felloe {

/// The other nodes of its part in the cells round a node, ascending.
std::vector<int> nodes_round(const Mesh &, int node);

/// Related gradient |grad s| / s [1/mm] at a node of value s, fitted to the values of the nodes
/// round it; see related_gradient().
double related_gradient_at(const Mesh &, int node, double value, const std::vector<int> &round,
                           const std::vector<double> &values);

}  // namespace felloe
