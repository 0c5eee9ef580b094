// SPDX-License-Identifier: GPL-3.0-or-later
// Element matrices and their sum.
#include "solver/detail/assembly.h"

#include <algorithm>
#include <array>
#include <string>

#include "mesher/error.h"
#include "solver/detail/parallel.h"

namespace felloe::detail {
namespace {

constexpr int n_pairs = 27 * 28 / 2;  ///< (a, b) with b <= a: pair a (a + 1) / 2 + b
using ElementMatrix = std::array<Block, n_pairs>;

/// Sum over the Gauss points of volume g_a g_b^T, g the 81 gradient components of the 27 nodes:
/// all that isotropic elasticity needs of a cell. Only columns up to the row's node are filled.
using GradientProducts = std::array<std::array<double, 84>, 81>;

// Two instruction sets in one program: the wide one halves the assembly time where it exists.
__attribute__((target_clones("arch=x86-64-v4", "arch=x86-64-v3", "default"))) void add_products(
    const double *g, double volume, GradientProducts &sum) {
  for (int i = 0; i < 81; ++i) {
    const double factor = volume * g[i];
    const int n_columns = ((i / 3 + 1) * 3 + 3) & ~3;
    double *row = sum[i].data();
    for (int j = 0; j < n_columns; ++j) row[j] += factor * g[j];
  }
}

/// K_ab = integral of lambda g_a g_b^T + mu g_b g_a^T + mu (g_a . g_b) I: the isotropic
/// B_a^T D B_b written out (Hughes, The Finite Element Method, 1987, section 2.7).
void element_matrix(const CellGradients &at, const Lame &material, GradientProducts &products,
                    ElementMatrix &k) {
  for (auto &row : products) row.fill(0);
  std::array<double, 84> g{};
  for (std::size_t q = 0; q < at.volume.size(); ++q) {
    for (int a = 0; a < 27; ++a)
      for (int i = 0; i < 3; ++i) g[3 * a + i] = at.gradients[q][a][i];
    add_products(g.data(), at.volume[q], products);
  }
  int pair = 0;
  for (int a = 0; a < 27; ++a)
    for (int b = 0; b <= a; ++b, ++pair) {
      const auto product = [&](int i, int j) { return products[3 * a + i][3 * b + j]; };
      const double trace = material.mu * (product(0, 0) + product(1, 1) + product(2, 2));
      for (int i = 0; i < 3; ++i)
        for (int j = 0; j < 3; ++j)
          k[pair][3 * i + j] = material.lambda * product(i, j) + material.mu * product(j, i) +
                               (i == j ? trace : 0.0);
    }
}

/// Components along the axes of both nodes.
Block turned(const Block &k, const Axes &row_axes, const Axes &column_axes) {
  Block half{}, full{};
  for (int i = 0; i < 3; ++i)
    for (int j = 0; j < 3; ++j)
      for (int m = 0; m < 3; ++m) half[3 * i + j] += row_axes[i][m] * k[3 * m + j];
  for (int i = 0; i < 3; ++i)
    for (int j = 0; j < 3; ++j)
      for (int m = 0; m < 3; ++m) full[3 * i + j] += half[3 * i + m] * column_axes[j][m];
  return full;
}

/// Adds a cell's blocks whose column belongs to the share.
void add_to(BlockMatrix &sum, const std::array<int, 27> &nodes, const ElementMatrix &k, int share,
            int n_shares) {
  int pair = 0;
  for (int a = 0; a < 27; ++a)
    for (int b = 0; b <= a; ++b, ++pair) {
      const bool as_is = nodes[a] >= nodes[b];
      const int row = as_is ? nodes[a] : nodes[b], column = as_is ? nodes[b] : nodes[a];
      if (column % n_shares != share) continue;
      Block &to = sum.block[sum.index(row, column)];
      for (int i = 0; i < 3; ++i)
        for (int j = 0; j < 3; ++j) to[3 * i + j] += k[pair][as_is ? 3 * i + j : 3 * j + i];
    }
}

}  // namespace

Lame lame(const Material &m) {
  const double e = m.youngs_modulus, nu = m.poissons_ratio;
  return {e * nu / ((1 + nu) * (1 - 2 * nu)), e / (2 * (1 + nu))};
}

Lame lame(Part part, const std::map<Part, Material> &materials) {
  const std::string name = part == Part::disc ? "disc" : part == Part::rim ? "rim" : "weld";
  const auto found = materials.find(part);
  if (found == materials.end())
    throw Error("materials: " + name +
                ": the mesh has this part and no material is given for it; give one");
  const Material &m = found->second;
  if (!(m.youngs_modulus > 0) || !(m.poissons_ratio > -1 && m.poissons_ratio < 0.5))
    throw Error("materials: " + name + ": Young's modulus " + std::to_string(m.youngs_modulus) +
                " MPa, Poisson's ratio " + std::to_string(m.poissons_ratio) +
                ": needs E > 0 and -1 < nu < 0.5");
  return lame(m);
}

BlockMatrix stiffness(const Mesh &mesh, const HexGeometry &geometry,
                      const std::vector<Lame> &of_cells, const std::vector<Axes> &of_nodes,
                      NodalFrame frame, std::vector<double> &volumes) {
  BlockMatrix sum = zero_matrix(mesh);
  volumes.assign(geometry.n_cells(), 0.0);
  constexpr int batch = 512;
  std::vector<ElementMatrix> matrices(std::min(batch, geometry.n_cells()));
  for (int begin = 0; begin < geometry.n_cells(); begin += batch) {
    const int end = std::min(begin + batch, geometry.n_cells());
    const int shares = n_threads();
    in_parallel([&](int t) {
      GradientProducts products;
      const int n = end - begin;
      geometry.visit(begin + n * t / shares, begin + n * (t + 1) / shares, CellPoints::gauss,
                     [&](int c, const CellGradients &at) {
                       for (const double v : at.volume) volumes[c] += v;
                       ElementMatrix &k = matrices[c - begin];
                       element_matrix(at, of_cells[c], products, k);
                       if (frame == NodalFrame::cartesian) return;
                       for (int a = 0, pair = 0; a < 27; ++a)
                         for (int b = 0; b <= a; ++b, ++pair)
                           k[pair] = turned(k[pair], of_nodes[mesh.cells[c][a]],
                                            of_nodes[mesh.cells[c][b]]);
                     });
    });
    in_parallel([&](int t) {
      for (int c = begin; c < end; ++c) add_to(sum, mesh.cells[c], matrices[c - begin], t, shares);
    });
  }
  return sum;
}

}  // namespace felloe::detail
