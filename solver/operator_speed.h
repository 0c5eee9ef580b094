// SPDX-License-Identifier: GPL-3.0-or-later
// How fast this machine multiplies the stiffness with a vector.
#pragma once
#include "mesher/mesh.h"
#include "solver/material.h"

namespace felloe {

enum class Precision { double_precision, single_precision };

/// Shortest time of one product of the matrix-free stiffness over so many repetitions [s]; one
/// material for all parts.
double operator_seconds(const Mesh &, const Material &, Precision, int n_threads, int repetitions);

}  // namespace felloe
