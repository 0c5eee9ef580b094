// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/detail/repeated_piece.h"

#include <algorithm>
#include <numeric>
#include <utility>

#include "solver/detail/sparse_reduction.h"

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
  list_places();
}

/// Where each node of the whole lies in the copies.
void RepeatedPiece::list_places() {
  places_begin_.assign(n_whole_nodes_ + 1, 0);
  for (const std::vector<int> &nodes : copies_)
    for (const int n : nodes) ++places_begin_[n + 1];
  std::partial_sum(places_begin_.begin(), places_begin_.end(), places_begin_.begin());
  places_.resize(places_begin_.back());
  std::vector<int> next(places_begin_.begin(), places_begin_.end() - 1);
  for (int k = 0; k < n_copies(); ++k)
    for (std::size_t n = 0; n < copies_[k].size(); ++n)
      places_[next[copies_[k][n]]++] = {k, static_cast<int>(n)};
}

ConstraintMap RepeatedPiece::map(const Supports &of_whole) const {
  Supports supports = of_whole;
  supports.lifted.clear();
  for (const int n : of_whole.lifted)
    for (int p = places_begin_[n]; p < places_begin_[n + 1]; ++p)
      if (places_[p].copy == 0) supports.lifted.push_back(places_[p].node);
  return constraint_map(piece_, NodalFrame::cylindrical, axes_, supports,
                        std::vector<bool>(piece_.nodes.size(), true));
}

SparseVector RepeatedPiece::reduced_forces(const ConstraintMap &map,
                                           const SparseVector &whole) const {
  std::vector<std::vector<std::pair<int, double>>> seen(n_copies());  // by each copy
  for (std::size_t e = 0; e < whole.size(); ++e) {
    const int node = whole.at[e] / 3, component = whole.at[e] % 3;
    for (int p = places_begin_[node]; p < places_begin_[node + 1]; ++p) {
      const auto [copy, own] = places_[p];
      if (weight_[own] != 0)
        seen[copy].push_back(
            {3 * own + component, weight_[own] * sign(copy, component) * whole.value[e]});
    }
  }
  std::vector<std::pair<int, double>> shares;
  for (int k = 0; k < n_copies(); ++k)
    reduce(map, summed(std::move(seen[k])), [&](int unknown, double force) {
      shares.push_back({k * map.n_reduced() + unknown, force});
    });
  return summed(std::move(shares));
}

void RepeatedPiece::put_displacement(const ConstraintMap &map,
                                     const std::vector<const double *> &of_copies,
                                     std::vector<double> &whole) const {
  whole.resize(3 * n_whole_nodes_);  // every node belongs to a copy
  static thread_local std::vector<double> u;
  for (int k = 0; k < n_copies(); ++k) {
    expand(map, of_copies[k], u);
    const std::vector<int> &nodes = copies_[k];
    const double hoop = sign(k, 1);
    for (std::size_t n = 0; n < nodes.size(); ++n) {
      double *to = whole.data() + 3L * nodes[n];
      to[0] = u[3 * n];
      to[1] = hoop * u[3 * n + 1];
      to[2] = u[3 * n + 2];
    }
  }
}

/// Eight copies at a time, whichever of the vectors they belong to.
void RepeatedPiece::multiply(const std::vector<const std::vector<double> *> &u,
                             std::vector<std::vector<double>> &products) const {
  const int n = static_cast<int>(u.size());
  for (int l = 0; l < n; ++l) products[l].assign(u[l]->size(), 0.0);
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

std::vector<double> RepeatedPiece::node_stiffness() const {
  std::vector<double> whole(n_whole_nodes_, 0.0);
  const std::vector<double> piece = node_diagonals(stiffness_);
  for (const std::vector<int> &nodes : copies_)
    for (std::size_t n = 0; n < nodes.size(); ++n) whole[nodes[n]] += piece[n];
  return whole;
}

}  // namespace felloe::detail
