// SPDX-License-Identifier: GPL-3.0-or-later
// Half a sector, cut out of a mesh that a turn and a mirror map onto itself.
#pragma once
#include <optional>
#include <vector>

#include "mesher/mesh.h"

namespace felloe::detail {

/// 2 N wedges make the wheel: wedge 2 k is the piece turned by k sectors, wedge 2 k + 1 its mirror
/// image beyond the plane that ends wedge 2 k.
struct WedgeMesh {
  /// Cells, nodes, surfaces, lines and pairs of wedge 0, turned so that it lies between the angles
  /// -pi / N and 0.
  Mesh piece;
  double angle = 0;                     ///< of the piece's plane at 0 in the whole mesh [rad]
  std::vector<std::vector<int>> whole;  ///< [wedge][node of the piece]: node of the whole mesh
  std::vector<int> cells;               ///< cells of the piece in the whole mesh
  std::vector<int> cut, mirror;         ///< nodes of the piece at -pi / N and at 0

  int n_sectors() const { return static_cast<int>(whole.size()) / 2; }
};

/// Empty when the mesh has fewer than three sectors, no mirror plane, cells astride of one, or
/// parts or pairs of the press fit that are not equal on both sides.
std::optional<WedgeMesh> wedge_mesh(const Mesh &);

}  // namespace felloe::detail
