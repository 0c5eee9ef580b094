// SPDX-License-Identifier: GPL-3.0-or-later
// The stiffness of the free body as an operator: no matrix, the cells are summed at every product.
#pragma once
#include <vector>

#include "solver/detail/assembly.h"
#include "solver/detail/cell_columns.h"
#include "solver/detail/cell_kernels.h"
#include "solver/detail/node_exchange.h"

namespace felloe::detail {

/// Memory on 64-byte borders.
template <class T>
struct Aligned {
  using value_type = T;
  Aligned() = default;
  template <class U>
  Aligned(const Aligned<U> &) {}
  T *allocate(std::size_t n) {
    return static_cast<T *>(::operator new (n * sizeof(T), std::align_val_t{64}));
  }
  void deallocate(T *p, std::size_t) { ::operator delete (p, std::align_val_t{64}); }
  bool operator==(const Aligned &) const { return true; }
  bool operator!=(const Aligned &) const { return false; }
};
template <class T>
using AlignedVector = std::vector<T, Aligned<T>>;

/// Products with vectors in the wheel frame, component = 3 place + axis, places as in CellColumns.
/// The shares of the cells never write to the same memory: nodes between two shares have a copy for
/// each share but one, added up at the end. Equal shares give equal bits.
template <class T>
class CellOperator {
 public:
  /// Throws Error naming the cell where the map folds over. The exchange must outlive it.
  CellOperator(const Mesh &, const CellColumns &, const std::vector<Lame> &of_cells,
               const NodeExchange &);

  int n_shares() const { return static_cast<int>(shares_.size()); }
  /// Vectors handed to multiply() have this many numbers: owned components, ghosts, scratch.
  long vector_size() const { return vector_size_; }
  long n_unknowns() const { return n_unknowns_; }  ///< owned components
  /// y = K x in the owned components; the ghosts of x are filled. All processes together.
  void multiply(T *x, T *y) const;
  const NodeExchange &exchange() const { return *exchange_; }

  struct Share {
    long first_batch = 0, last_batch = 0;
    long first_column = 0, last_column = 0;        ///< columns that the share owns
    long first_component = 0, last_component = 0;  ///< their memory
    long first_copy = 0, last_copy = 0;            ///< its copies, components
  };
  const std::vector<Share> &shares() const { return shares_; }

  long n_batches() const { return static_cast<long>(start_.size()) - 1; }
  int cell(long batch, int lane) const;  ///< -1: an empty lane
  const T *metric(long batch) const { return metric_.data() + batch * n_metric * n_lanes<T>; }
  const T *lame(long batch) const { return lame_.data() + batch * 2 * n_lanes<T>; }

 private:
  struct Copy {
    long from, to;  ///< first components of a node
  };
  void deal_out(const CellColumns &, int share, const std::vector<int> &owner,
                std::vector<long> &copy_of);

  const NodeExchange *exchange_;
  long n_unknowns_ = 0, n_with_ghosts_ = 0, vector_size_ = 0;
  std::vector<int> cells_;  ///< [batch][lane]
  std::vector<int> from_, to_;
  std::vector<long> start_{0};
  std::vector<Share> shares_;
  std::vector<Copy> copies_;
  AlignedVector<T> metric_, lame_;
};

extern template class CellOperator<double>;
extern template class CellOperator<float>;

}  // namespace felloe::detail
