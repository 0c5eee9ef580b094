// SPDX-License-Identifier: GPL-3.0-or-later
// Six rigid motions against the held components.
#include "solver/detail/rigid_motions.h"

#include <algorithm>
#include <cmath>

namespace felloe::detail {
namespace {

using Matrix6 = std::array<std::array<double, 6>, 6>;

/// Eigenvalues on the diagonal of a, eigenvectors in the columns of the result: cyclic Jacobi
/// rotations (Golub and Van Loan, Matrix Computations, section 8.5).
Matrix6 diagonalised(Matrix6 &a) {
  Matrix6 v{};
  for (int i = 0; i < 6; ++i) v[i][i] = 1;
  for (int sweep = 0; sweep < 30; ++sweep)
    for (int p = 0; p < 6; ++p)
      for (int q = p + 1; q < 6; ++q) {
        if (std::abs(a[p][q]) < 1e-300) continue;
        const double angle = 0.5 * std::atan2(2 * a[p][q], a[q][q] - a[p][p]);
        const double c = std::cos(angle), s = std::sin(angle);
        for (int k = 0; k < 6; ++k) {
          const double x = a[k][p], y = a[k][q];
          a[k][p] = c * x - s * y;
          a[k][q] = s * x + c * y;
        }
        for (int k = 0; k < 6; ++k) {
          const double x = a[p][k], y = a[q][k];
          a[p][k] = c * x - s * y;
          a[q][k] = s * x + c * y;
        }
        for (int k = 0; k < 6; ++k) {
          const double x = v[k][p], y = v[k][q];
          v[k][p] = c * x - s * y;
          v[k][q] = s * x + c * y;
        }
      }
  return v;
}

std::string in_words(const Matrix6 &vectors, int column) {
  int largest = 0;
  for (int i = 1; i < 6; ++i)
    if (std::abs(vectors[i][column]) > std::abs(vectors[largest][column])) largest = i;
  const std::string axis(1, "xyz"[largest % 3]);
  return largest < 3 ? "shift along " + axis : "turn about an axis along " + axis;
}

}  // namespace

std::string free_rigid_motions(const Mesh &mesh, const std::vector<Axes> &axes,
                               const ConstraintMap &map) {
  // Lengths are divided by the size of the mesh so that shifts and turns weigh alike.
  Vec3 low = mesh.nodes.front(), high = low;
  for (const Vec3 &x : mesh.nodes)
    for (int i = 0; i < 3; ++i) {
      low[i] = std::min(low[i], x[i]);
      high[i] = std::max(high[i], x[i]);
    }
  const Vec3 centre = scale(0.5, add(low, high));
  const double size = 0.5 * norm(subtract(high, low));

  Matrix6 sum{};
  long n_held = 0;
  for (std::size_t u = 0; u < map.unknown.size(); ++u) {
    if (map.unknown[u] != ConstraintMap::held) continue;
    ++n_held;
    const Vec3 &e = axes[u / 3][u % 3];
    const Vec3 arm = scale(1 / size, cross(subtract(mesh.nodes[u / 3], centre), e));
    const std::array<double, 6> row{e[0], e[1], e[2], arm[0], arm[1], arm[2]};
    for (int i = 0; i < 6; ++i)
      for (int j = 0; j < 6; ++j) sum[i][j] += row[i] * row[j];
  }
  const Matrix6 vectors = diagonalised(sum);
  std::string words;
  for (int k = 0; k < 6; ++k)
    if (sum[k][k] <= 1e-10 * static_cast<double>(std::max(n_held, 1L)))
      words += (words.empty() ? "" : ", ") + in_words(vectors, k);
  return words;
}

}  // namespace felloe::detail
