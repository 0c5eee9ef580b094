// SPDX-License-Identifier: GPL-3.0-or-later
// Which unknowns the rigid columns of the coarse problem follow, and which of them lie between
// shares.
#pragma once
#include <array>
#include <vector>

#include "solver/detail/admissible.h"
#include "solver/detail/coarse_columns.h"

namespace felloe::detail {

/// What a carrying column's six motions about its centre follow: an entity's unknowns.
struct Follower {
  int entity = -1;                               ///< -1: held
  std::array<std::array<double, 6>, 6> basis{};  ///< [motion][unknown of the entity]
};

/// An entity is a column of its own (five unknowns, three when it is a single node) or the adapter
/// (six). Those that several shares of the work touch are the border.
struct CoarseUnknowns {
  std::vector<Follower> follower;  ///< of each carrying column
  std::vector<int> size;           ///< of each entity
  std::vector<int> border;         ///< of each entity: its first unknown on the border; -1: inside
  int n_unknowns = 0, n_border = 0;
};

/// `columns` and `everywhere` are those of the whole mesh.
CoarseUnknowns coarse_unknowns(const CoarseColumns &, const CellColumns &columns,
                               const Admissible &everywhere);

/// The share of the work that adds the springs of a tie: the one that owns its columns.
int share_of_tie(const CellColumns &columns, const std::vector<Direction> &tie);

}  // namespace felloe::detail
