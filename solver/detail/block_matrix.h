// SPDX-License-Identifier: GPL-3.0-or-later
// The stiffness of the free body: one 3 x 3 block for each pair of nodes that share a cell.
#pragma once
#include <array>
#include <vector>

#include "mesher/mesh.h"
#include "solver/detail/sparse_cholesky.h"

namespace felloe::detail {

/// Row-major 3 x 3.
using Block = std::array<double, 9>;

/// Symmetric; column by column of nodes, blocks of the rows >= the column, ascending.
/// Unknown = 3 node + component.
struct BlockMatrix {
  std::vector<long> column_start;
  std::vector<int> row;
  std::vector<Block> block;

  int n_nodes() const { return static_cast<int>(column_start.size()) - 1; }
  long n_unknowns() const { return 3L * n_nodes(); }
  /// Index of the block; row >= column, must exist.
  long index(int row_node, int column_node) const;
};

/// The pattern of the mesh without blocks.
BlockMatrix pattern(const Mesh &);
/// The pattern of the mesh with all blocks zero.
BlockMatrix zero_matrix(const Mesh &);

/// Largest diagonal entry of each node.
std::vector<double> node_diagonals(const BlockMatrix &);

/// y = A x for one column.
std::vector<double> multiply(const BlockMatrix &, const std::vector<double> &x);

/// The same for eight vectors at once, entry i of vector k at x[i][k]: the matrix is read once.
using EightVectors = std::vector<std::array<double, 8>>;
EightVectors multiply(const BlockMatrix &, const EightVectors &x);
/// The same into `y`, whose memory is used again.
void multiply(const BlockMatrix &, const EightVectors &x, EightVectors &y);

}  // namespace felloe::detail
