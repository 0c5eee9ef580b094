// SPDX-License-Identifier: GPL-3.0-or-later
// Products of shape functions and their sum.
#include "solver/detail/mass_matrix.h"

#include <array>
#include <cmath>

#include "solver/detail/parallel.h"

namespace felloe::detail {
namespace {

using PointValues = std::array<std::array<double, 27>, 27>;  ///< [Gauss point][node]

/// Lagrange polynomials of the nodes 0, 1/2, 1 at the three Gauss points of the unit interval.
std::array<std::array<double, 3>, 3> line_values() {
  std::array<std::array<double, 3>, 3> values;
  for (int q = 0; q < 3; ++q) {
    const double x = 0.5 + 0.5 * std::sqrt(0.6) * (q - 1);
    values[q] = {(2 * x - 1) * (x - 1), 4 * x * (1 - x), x * (2 * x - 1)};
  }
  return values;
}

PointValues shape_values() {
  const auto line = line_values();
  PointValues values;
  for (int q = 0; q < 27; ++q)
    for (int a = 0; a < 27; ++a)
      values[q][a] = line[q % 3][a % 3] * line[q / 3 % 3][a / 3 % 3] * line[q / 9][a / 9];
  return values;
}

/// Adds m I, a Cartesian block, along the axes of both nodes.
void add_turned(double m, const Axes &row_axes, const Axes &column_axes, Block &to) {
  for (int i = 0; i < 3; ++i)
    for (int j = 0; j < 3; ++j) to[3 * i + j] += m * dot(row_axes[i], column_axes[j]);
}

}  // namespace

BlockMatrix mass_matrix(const Mesh &mesh, const HexGeometry &geometry,
                        const std::vector<double> &density_of_cells,
                        const std::vector<Axes> &of_nodes) {
  const int n_cells = geometry.n_cells(), shares = n_threads();
  std::vector<std::array<double, 27>> mass_of_points(n_cells);
  in_parallel([&](int t) {
    geometry.visit(static_cast<int>(1L * n_cells * t / shares),
                   static_cast<int>(1L * n_cells * (t + 1) / shares), CellPoints::gauss,
                   [&](int c, const CellGradients &at) {
                     for (int q = 0; q < 27; ++q)
                       mass_of_points[c][q] = density_of_cells[c] * at.volume[q];
                   });
  });
  const PointValues values = shape_values();
  BlockMatrix sum = zero_matrix(mesh);
  // Each share owns columns and adds in the order of cells: equal bits on any number of processors.
  in_parallel([&](int t) {
    for (int c = 0; c < n_cells; ++c)
      for (int a = 0; a < 27; ++a) {
        const int column = mesh.cells[c][a];
        if (column % shares != t) continue;
        for (int b = 0; b < 27; ++b) {
          const int row = mesh.cells[c][b];
          if (row < column) continue;
          double m = 0;
          for (int q = 0; q < 27; ++q) m += mass_of_points[c][q] * values[q][a] * values[q][b];
          add_turned(m, of_nodes[row], of_nodes[column], sum.block[sum.index(row, column)]);
        }
      }
  });
  return sum;
}

}  // namespace felloe::detail
