// SPDX-License-Identifier: GPL-3.0-or-later
// Batches, shares and their copies.
#include "solver/detail/cell_operator.h"

#include <algorithm>
#include <string>

#include "mesher/error.h"
#include "solver/detail/cell_metric.h"
#include "solver/detail/in_shares.h"

namespace felloe::detail {
namespace {

/// Kernels load eight numbers where a column has fewer behind it.
constexpr long padding = 16;

}  // namespace

template <class T>
int CellOperator<T>::cell(long batch, int lane) const {
  return cells_[batch * n_lanes<T> + lane];
}

/// Batches of one share from its cells; columns that another share writes to get a copy.
template <class T>
void CellOperator<T>::deal_out(const CellColumns &columns, int share, const std::vector<int> &owner,
                               std::vector<long> &copy_of) {
  constexpr int n = n_lanes<T>;
  Share &s = shares_[share];
  s.first_batch = n_batches();
  s.first_copy = vector_size_;
  const auto target = [&](int place) -> long {
    const int column = columns.column[place];
    if (owner[column] == share) return 3L * place;
    if (copy_of[column] < 0) {
      copy_of[column] = vector_size_;
      for (int p = columns.start[column]; p < columns.start[column + 1]; ++p, vector_size_ += 3)
        copies_.push_back({vector_size_, 3L * p});
    }
    return copy_of[column] + 3L * (place - columns.start[column]);
  };
  for (const bool loose : {false, true}) {
    std::vector<int> kind;
    for (int k = columns.first_cell[share]; k < columns.first_cell[share + 1]; ++k)
      if (bool(columns.loose[columns.order[k]]) == loose) kind.push_back(columns.order[k]);
    for (std::size_t first = 0; first < kind.size(); first += n) {
      const int n_places = loose ? 27 : 9;
      for (int a = 0; a < n_places; ++a)
        for (int l = 0; l < n; ++l) {
          // Empty lanes add zeros to the first cell's nodes.
          const int c = kind[first + l < kind.size() ? first + l : first];
          const int lexicographic =
              loose ? a % 9 / 3 + 3 * (a / 9) + 9 * (a % 3) : a % 3 + 3 * (a / 3);
          const int place = columns.places[c][lexicographic];
          from_.push_back(3 * place);
          to_.push_back(static_cast<int>(target(place)));
        }
      for (int l = 0; l < n; ++l) cells_.push_back(first + l < kind.size() ? kind[first + l] : -1);
      start_.push_back(start_.back() + n_places);
    }
  }
  s.last_batch = n_batches();
  s.last_copy = vector_size_;
  std::fill(copy_of.begin(), copy_of.end(), -1);
}

template <class T>
CellOperator<T>::CellOperator(const Mesh &mesh, const CellColumns &columns,
                              const std::vector<Lame> &of_cells, const NodeExchange &exchange)
    : exchange_(&exchange), shares_(columns.n_shares()) {
  constexpr int n = n_lanes<T>;
  n_unknowns_ = 3L * columns.n_owned_places();
  n_with_ghosts_ = vector_size_ = 3L * columns.n_places();
  const int n_dealt = this->n_shares();
  // The first share writes to the ghosts.
  std::vector<int> owner(columns.n_columns(), 0);
  for (int s = 0; s < n_dealt; ++s) {
    shares_[s].first_column = columns.first_column[s];
    shares_[s].last_column = columns.first_column[s + 1];
    shares_[s].first_component = 3L * columns.start[shares_[s].first_column];
    shares_[s].last_component = 3L * columns.start[shares_[s].last_column];
    std::fill(owner.begin() + columns.first_column[s], owner.begin() + columns.first_column[s + 1],
              s);
  }
  std::vector<long> copy_of(columns.n_columns(), -1);
  for (int s = 0; s < n_dealt; ++s) deal_out(columns, s, owner, copy_of);
  vector_size_ += padding;

  metric_.resize(n_batches() * n_metric * n);
  lame_.resize(n_batches() * 2 * n);
  in_shares(this->n_shares(), [&](int s) {
    for (long b = shares_[s].first_batch; b < shares_[s].last_batch; ++b)
      for (int l = 0; l < n; ++l) {
        const int c = cell(b, l);
        if (c < 0) continue;
        std::array<Vec3, 27> nodes;
        for (int a = 0; a < 27; ++a) nodes[a] = mesh.nodes[columns.node[columns.places[c][a]]];
        T *metric = metric_.data() + b * n_metric * n + l;
        const double volume = cell_metric(
            nodes, [&](int entry, double value) { metric[entry * n] = static_cast<T>(value); });
        if (!(volume > 0))
          throw Error("mesh: cell " + std::to_string(c) + ": Jacobian determinant " +
                      std::to_string(volume) + ": the cell is folded over; mend the mesh");
        lame_[(2 * b) * n + l] = static_cast<T>(of_cells[c].lambda);
        lame_[(2 * b + 1) * n + l] = static_cast<T>(of_cells[c].mu);
      }
  });
}

template <class T>
void CellOperator<T>::multiply(T *x, T *y) const {
  exchange_->fill_ghosts(x);
  const CellBatches<T> batches{metric_.data(), lame_.data(), from_.data(), to_.data(),
                               start_.data()};
  in_shares(n_shares(), [&](int s) {
    const Share &share = shares_[s];
    std::fill(y + share.first_component, y + share.last_component, T(0));
    if (s == 0) std::fill(y + n_unknowns_, y + n_with_ghosts_, T(0));
    std::fill(y + share.first_copy, y + share.last_copy, T(0));
    cell_kernels<T>().add_product(batches, share.first_batch, share.last_batch, x, y);
  });
  for (const Copy &copy : copies_)
    for (int i = 0; i < 3; ++i) y[copy.to + i] += y[copy.from + i];
  exchange_->add_ghosts(y);
}

template class CellOperator<double>;
template class CellOperator<float>;

}  // namespace felloe::detail
