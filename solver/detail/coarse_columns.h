// SPDX-License-Identifier: GPL-3.0-or-later
// How rigid columns at the cells' corners carry all nodes: the interpolation of the coarse space.
#pragma once
#include <array>
#include <vector>

#include "mesher/mesh.h"
#include "solver/detail/cell_columns.h"

namespace felloe::detail {

/// A column's share in a node: weight (translation + rotation x arm).
struct Carrier {
  int column = 0;  ///< numbered among the carrying columns
  std::array<float, 3> arm{};
};

/// Corner columns move as rigid bodies. Nodes between them follow
///
///   u(x) = mean over the corners of t_j + w_j x (x - (m + x_j) / 2 + x_j - X_j)
///
/// X_j: the centre of column j, x_j: its node opposite x, m: the mean of the x_j. Rigid motions of
/// the whole are exact. Along an edge this is the deflection whose transverse shear is constant
/// when the columns turn: quadratic, so that thin sheets bend without locking (the linked
/// interpolation of Timoshenko and Mindlin elements: Zienkiewicz and Taylor, The Finite Element
/// Method, vol. 2, chapter on thick plates).
struct CoarseColumns {
  std::vector<int> column;   ///< of each carrying column, ascending: its number in CellColumns
  std::vector<Vec3> centre;  ///< X_j
  std::vector<Vec3> along;   ///< from the first to the last node; zero for single nodes
  std::vector<int> start;    ///< of each place: its first carrier; one more at the end
  std::vector<Carrier> carrier;
  std::vector<int> source;  ///< of each place: the cell whose corners carry it

  int n_columns() const { return static_cast<int>(column.size()); }
  double weight(int place) const { return 1.0 / (start[place + 1] - start[place]); }
};

CoarseColumns coarse_columns(const Mesh &, const CellColumns &);

}  // namespace felloe::detail
