// SPDX-License-Identifier: GPL-3.0-or-later
// Elimination order and supernodes of a long, narrow mesh, for factors of many matrices at once.
#pragma once
#include <vector>

namespace felloe::detail {

/// Where the numbers of the factor stand: dense panels of columns with the same rows.
struct LanePlan {
  struct Panel {
    int first = 0, columns = 0;  ///< positions first ... first + columns - 1
    std::vector<int> rows;       ///< positions below the panel's own, ascending
    long start = 0;              ///< of its numbers, column by column, own rows first
    int height() const { return columns + static_cast<int>(rows.size()); }
    /// Row of the panel that a position from `first` on has; it must be there.
    int row_of(int position) const;
  };
  std::vector<int> place;     ///< position of each unknown in the order of elimination
  std::vector<Panel> panels;  ///< in that order
  std::vector<int> panel_of;  ///< of each position
  long size = 0;              ///< numbers of all panels

  /// Where the number (row, column) of two positions stands, row >= column.
  long entry(int row, int column) const {
    const Panel &p = panels[panel_of[column]];
    return p.start + static_cast<long>(column - p.first) * p.height() + p.row_of(row);
  }
};

/// Eliminates from the tips of the mesh towards its middle: what lies between is never wider than
/// the mesh, also where branches meet.
/// @param group    of each unknown; unknowns of a group are neighbours of the same ones
/// @param cliques  groups of each cell, every one once
/// @param last     group that is eliminated last (it may touch everything), or -1
LanePlan lane_plan(const std::vector<int> &group, const std::vector<std::vector<int>> &cliques,
                   int last);

}  // namespace felloe::detail
