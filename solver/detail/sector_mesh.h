// SPDX-License-Identifier: GPL-3.0-or-later
// One sector cut out of a mesh that repeats itself under a turn.
#pragma once
#include <optional>
#include <vector>

#include "mesher/mesh.h"

namespace felloe::detail {

struct SectorMesh {
  Mesh piece;                           ///< cells, nodes, surfaces, lines, pairs of sector 0
  std::vector<std::vector<int>> whole;  ///< [sector][node of the piece]: node of the whole mesh
  std::vector<int> cells;               ///< cells of the piece in the whole mesh
  std::vector<int> left, right;  ///< nodes of the piece on its cuts; right[i] = left[i] turned
};

/// Cells of a mesh as a mesh of their own.
struct Piece {
  Mesh mesh;
  std::vector<int> nodes;  ///< of each node of the piece: its number in the whole mesh, ascending
};

/// Nodes, parts, and those surfaces, lines and pairs that lie in the piece.
Piece cut_out(const Mesh &, const std::vector<int> &cells);
/// Largest divisor of the mesh's symmetry that leaves sectors of a sensible size.
int sector_count(int symmetry);
/// Where each node comes to by one sector's turn.
std::vector<int> turned_by_sector(const Mesh &, int n_sectors);

/// The sector of cells whose centres lie in [0, 2 pi / n), n = sector_count(). Empty when the mesh
/// has no symmetry or when its sectors do not fit together node by node.
std::optional<SectorMesh> sector_mesh(const Mesh &);

}  // namespace felloe::detail
