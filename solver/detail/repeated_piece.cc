// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/detail/repeated_piece.h"

#include <algorithm>
#include <utility>

#include "solver/detail/parallel.h"

namespace felloe::detail {

RepeatedPiece::RepeatedPiece(const BodyInput &in, const Mesh &piece, const std::vector<int> &cells,
                             const std::vector<std::vector<int>> &copies, bool is_mirrored,
                             std::vector<double> weight)
    : piece_(piece),
      copies_(copies),
      is_mirrored_(is_mirrored),
      n_whole_nodes_(in.mesh.nodes.size()),
      weight_(std::move(weight)),
      axes_(node_axes(piece, NodalFrame::cylindrical)) {
  std::vector<Lame> of_cells;
  for (const int c : cells) of_cells.push_back(in.of_cells[c]);
  std::vector<double> volumes;
  stiffness_ = detail::stiffness(piece, HexGeometry(piece), of_cells, axes_,
                                 NodalFrame::cylindrical, volumes);
  for (std::size_t c = 0; c < volumes.size(); ++c)
    part_volumes_[piece.parts[c]] += n_copies() * volumes[c];
}

ConstraintMap RepeatedPiece::map(const Supports &supports) const {
  return constraint_map(piece_, NodalFrame::cylindrical, axes_, supports,
                        std::vector<bool>(piece_.nodes.size(), true));
}

std::vector<double> RepeatedPiece::forces_of(const std::vector<double> &whole, int copy) const {
  const std::vector<int> &nodes = copies_[copy];
  std::vector<double> f(3 * nodes.size());
  for (std::size_t n = 0; n < nodes.size(); ++n)
    for (int c = 0; c < 3; ++c)
      f[3 * n + c] = weight_[n] * sign(copy, c) * whole[3L * nodes[n] + c];
  return f;
}

std::vector<double> RepeatedPiece::displacement(
    const ConstraintMap &map, const std::vector<const double *> &of_copies) const {
  std::vector<double> whole(3 * n_whole_nodes_, 0.0);
  const std::vector<double> no_offset(map.unknown.size(), 0.0);
  for (int k = 0; k < n_copies(); ++k) {
    const std::vector<double> u = expanded(map, of_copies[k], no_offset);
    const std::vector<int> &nodes = copies_[k];
    for (std::size_t n = 0; n < nodes.size(); ++n)
      for (int c = 0; c < 3; ++c) whole[3L * nodes[n] + c] = sign(k, c) * u[3 * n + c];
  }
  return whole;
}

/// Eight copies at a time, whichever of the vectors they belong to.
void RepeatedPiece::add_products(const std::vector<double> *const *u, int n,
                                 std::vector<double> *products) const {
  EightVectors x(3 * piece_.nodes.size(), std::array<double, 8>{}), y;
  for (int first = 0; first < n * n_copies(); first += 8) {
    const int count = std::min(8, n * n_copies() - first);
    const double *from[8];
    double *to[8];
    const int *nodes[8];
    double hoop[8];
    for (int k = 0; k < count; ++k) {
      const int of = (first + k) / n_copies(), copy = (first + k) % n_copies();
      from[k] = u[of]->data();
      to[k] = products[of].data();
      nodes[k] = copies_[copy].data();
      hoop[k] = sign(copy, 1);
    }
    for (std::size_t p = 0; p < piece_.nodes.size(); ++p)
      for (int k = 0; k < count; ++k) {
        const double *v = from[k] + 3L * nodes[k][p];
        x[3 * p][k] = v[0];
        x[3 * p + 1][k] = hoop[k] * v[1];
        x[3 * p + 2][k] = v[2];
      }
    detail::multiply(stiffness_, x, y);
    for (std::size_t p = 0; p < piece_.nodes.size(); ++p)
      for (int k = 0; k < count; ++k) {
        double *v = to[k] + 3L * nodes[k][p];
        v[0] += y[3 * p][k];
        v[1] += hoop[k] * y[3 * p + 1][k];
        v[2] += y[3 * p + 2][k];
      }
  }
}

std::vector<std::vector<double>> RepeatedPiece::multiply_all(
    const std::vector<const std::vector<double> *> &u) const {
  std::vector<std::vector<double>> products(u.size());
  const long n = static_cast<long>(u.size()), shares = n_threads();
  in_parallel([&](int t) {
    const long begin = n * t / shares, end = n * (t + 1) / shares;
    for (long l = begin; l < end; ++l) products[l].assign(u[l]->size(), 0.0);
    add_products(u.data() + begin, static_cast<int>(end - begin), products.data() + begin);
  });
  return products;
}

std::vector<double> RepeatedPiece::node_stiffness() const {
  std::vector<double> whole(n_whole_nodes_, 0.0);
  const std::vector<double> piece = node_diagonals(stiffness_);
  for (const std::vector<int> &nodes : copies_)
    for (std::size_t n = 0; n < nodes.size(); ++n) whole[nodes[n]] += piece[n];
  return whole;
}

}  // namespace felloe::detail
