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
struct CellColumns {
  std::vector<int> start;   ///< first place of each column; one more at the end
  std::vector<int> node;    ///< of each place: the node of the mesh
  std::vector<int> place;   ///< of each node: its place; -1 without a cell
  std::vector<int> column;  ///< of each place
  std::vector<int> order;   ///< of the cells: neighbours and layers of one stack together
  std::vector<char> loose;  ///< of each cell of the mesh
  std::vector<std::array<int, 27>> places;  ///< of each cell, lexicographic with columns along k

  int n_places() const { return static_cast<int>(node.size()); }
  int n_columns() const { return static_cast<int>(start.size()) - 1; }
};

CellColumns cell_columns(const Mesh &);

}  // namespace felloe::detail
