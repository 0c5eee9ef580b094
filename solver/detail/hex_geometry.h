// SPDX-License-Identifier: GPL-3.0-or-later
// Shape-function gradients and volume elements of quadratic hexahedra.
#pragma once
#include <array>
#include <functional>
#include <memory>
#include <vector>

#include "mesher/mesh.h"

namespace felloe::detail {

/// Where a cell is looked at: 3 x 3 x 3 Gauss points, or the 27 nodes; lexicographic.
enum class CellPoints { gauss, nodes };

/// What one cell offers at its points; nodes in the mesh's lexicographic order.
struct CellGradients {
  std::vector<std::array<Vec3, 27>> gradients;  ///< [point][node], d/dx of the shape functions
  std::vector<double> volume;  ///< Jacobian determinant times quadrature weight [mm3]
};

/// The isoparametric map: quadratic through the 27 nodes, which lie on the exact geometry.
class HexGeometry {
 public:
  explicit HexGeometry(const Mesh &);
  ~HexGeometry();

  int n_cells() const;
  /// Calls visit(cell, gradients) for first <= cell < last.
  /// May be called from several threads at once.
  /// Throws Error naming the cell where the map folds over (Jacobian not positive).
  void visit(int first, int last, CellPoints,
             const std::function<void(int, const CellGradients &)> &) const;

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace felloe::detail
