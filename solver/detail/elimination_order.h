// SPDX-License-Identifier: GPL-3.0-or-later
// The order in which a piece's nodes are eliminated, remembered by its topology.
#pragma once
#include <vector>

#include "mesher/mesh.h"

namespace felloe::detail {

/// Nested dissection of the nodes that are not in the border, pairs of the press fit as one: good
/// for all supports and both parities, which take single unknowns out.
///
/// The last few orders are kept for the whole process: designs that differ in shape alone find
/// theirs again. May be called from several threads at once.
/// @return of each node: its place in the order; 0 in the border. Throws std::bad_alloc
std::vector<long> elimination_order(const Mesh &, const std::vector<int> &border);

}  // namespace felloe::detail
