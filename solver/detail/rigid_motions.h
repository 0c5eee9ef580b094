// SPDX-License-Identifier: GPL-3.0-or-later
// Finds out which rigid motions of the body the supports leave free.
#pragma once
#include <string>

#include "solver/detail/constraint_map.h"

namespace felloe::detail {

/// The free rigid motions of the whole body in words ("shift along x, turn about an axis along
/// z"); empty when the held components prevent all six.
std::string free_rigid_motions(const Mesh &, const std::vector<Axes> &, const ConstraintMap &);

}  // namespace felloe::detail
