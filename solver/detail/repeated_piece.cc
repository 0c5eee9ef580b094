// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/detail/repeated_piece.h"

#include <algorithm>
#include <utility>

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

std::vector<double> RepeatedPiece::multiply(const std::vector<double> &u) const {
  std::vector<double> product(u.size(), 0.0);
  for (int first = 0; first < n_copies(); first += 8) {
    const int count = std::min(8, n_copies() - first);
    EightVectors x(3 * piece_.nodes.size(), std::array<double, 8>{});
    for (int k = 0; k < count; ++k)
      for (std::size_t n = 0; n < piece_.nodes.size(); ++n)
        for (int c = 0; c < 3; ++c)
          x[3 * n + c][k] = sign(first + k, c) * u[3L * copies_[first + k][n] + c];
    const EightVectors y = detail::multiply(stiffness_, x);
    for (int k = 0; k < count; ++k)
      for (std::size_t n = 0; n < piece_.nodes.size(); ++n)
        for (int c = 0; c < 3; ++c)
          product[3L * copies_[first + k][n] + c] += sign(first + k, c) * y[3 * n + c][k];
  }
  return product;
}

std::vector<double> RepeatedPiece::node_stiffness() const {
  std::vector<double> whole(n_whole_nodes_, 0.0);
  const std::vector<double> piece = node_diagonals(stiffness_);
  for (const std::vector<int> &nodes : copies_)
    for (std::size_t n = 0; n < nodes.size(); ++n) whole[nodes[n]] += piece[n];
  return whole;
}

}  // namespace felloe::detail
