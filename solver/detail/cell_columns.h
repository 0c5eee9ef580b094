// SPDX-License-Identifier: GPL-3.0-or-later
// The nodes of a mesh as columns through the thickness, numbered so that a column lies in one piece
// of memory.
#pragma once
#include <array>
#include <vector>

#include "mesher/mesh.h"

namespace felloe::detail {

/// Columns run along the third local direction of the cells, or along another one where that does
/// not end after a few cells. Cells whose columns would contradict those of their neighbours, and
/// all cells of meshes without short columns, are loose: nodes that belong to loose cells only are
/// columns by themselves.
///
/// Cells are dealt out to shares of the work, each a piece of the body. A share owns the columns
/// that its cells touch first, except that columns joined by the press fit have one owner. Columns
/// behind the owned ones are ghosts: another process owns them.
struct CellColumns {
  std::vector<int> start;   ///< first place of each column; one more at the end
  std::vector<int> node;    ///< of each place: the node of the mesh
  std::vector<int> place;   ///< of each node: its place; -1 without a cell
  std::vector<int> column;  ///< of each place
  std::vector<int> order;   ///< of the cells, by shares: neighbours, layers of a stack together
  std::vector<char> loose;  ///< of each cell of the mesh
  std::vector<std::array<int, 27>> places;  ///< of each cell, lexicographic with columns along k
  std::vector<int> first_cell;              ///< of each share, in `order`; one more at the end
  std::vector<int> first_column;            ///< that each share owns; one more at the end
  int longest = 0;  ///< nodes of the longest column, ghosts or not, of all processes

  int n_places() const { return static_cast<int>(node.size()); }
  int n_columns() const { return static_cast<int>(start.size()) - 1; }
  int n_shares() const { return static_cast<int>(first_cell.size()) - 1; }
  int n_owned_places() const { return start[first_column.back()]; }
};

/// Of the whole mesh, cut into shares of equal size by the angle round the axis when the body
/// surrounds it, else along its longest side.
CellColumns cell_columns(const Mesh &, int n_shares = 1);

/// What the shares first ... last - 1 of a whole mesh need, with places of their own: owned columns
/// in the order of the whole, then ghosts likewise.
CellColumns portion(const CellColumns &whole, int first_share, int last_share);

}  // namespace felloe::detail
