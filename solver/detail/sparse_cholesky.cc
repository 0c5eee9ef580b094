// SPDX-License-Identifier: GPL-3.0-or-later
// Sparse Cholesky by CHOLMOD; the only file that includes it.
#include "solver/detail/sparse_cholesky.h"

#include <suitesparse/cholmod.h>

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <new>
#include <string>

#include "solver/detail/parallel.h"

namespace felloe::detail {
namespace {

static_assert(sizeof(long) == sizeof(SuiteSparse_long));

/// Below this ratio the smallest pivot is rounding: a unit diagonal leaves 1e-16 times the length
/// of a few sums, while the softest bending of thin discs stays above 1e-11.
constexpr double least_pivot_ratio = 1e-14;

/// A view of our arrays; CHOLMOD does not write to them.
cholmod_sparse view(const SymmetricMatrix &a, const double *value) {
  cholmod_sparse s{};
  s.nrow = s.ncol = a.size();
  s.nzmax = a.row.size();
  s.p = const_cast<long *>(a.column_start.data());
  s.i = const_cast<long *>(a.row.data());
  s.x = const_cast<double *>(value);
  s.stype = -1;
  s.itype = CHOLMOD_LONG;
  s.xtype = value ? CHOLMOD_REAL : CHOLMOD_PATTERN;
  s.dtype = CHOLMOD_DOUBLE;
  s.sorted = s.packed = 1;
  return s;
}

/// Pattern of the groups: groups are joined when any of their unknowns are.
SymmetricMatrix group_pattern(const SymmetricMatrix &a, const std::vector<int> &group) {
  const long n_groups = *std::max_element(group.begin(), group.end()) + 1L;
  std::vector<std::vector<int>> columns(n_groups);
  for (long c = 0; c < a.size(); ++c) {
    // The lower triangle of a group holds the same neighbours in each of its columns, mostly.
    for (long e = a.column_start[c]; e < a.column_start[c + 1]; ++e) {
      const int low = std::min(group[c], group[a.row[e]]),
                high = std::max(group[c], group[a.row[e]]);
      std::vector<int> &column = columns[low];
      if (column.empty() || column.back() != high) column.push_back(high);
    }
  }
  SymmetricMatrix pattern;
  pattern.column_start.push_back(0);
  for (std::vector<int> &column : columns) {
    std::sort(column.begin(), column.end());
    column.erase(std::unique(column.begin(), column.end()), column.end());
    pattern.row.insert(pattern.row.end(), column.begin(), column.end());
    pattern.column_start.push_back(static_cast<long>(pattern.row.size()));
    std::vector<int>().swap(column);
  }
  return pattern;
}

/// Unknowns in the order of their groups.
std::vector<long> expanded(const std::vector<long> &group_order, const std::vector<int> &group) {
  std::vector<long> start(group_order.size() + 1, 0), position(group_order.size());
  for (std::size_t k = 0; k < group_order.size(); ++k) position[group_order[k]] = k;
  for (const int g : group) ++start[position[g] + 1];
  for (std::size_t k = 0; k < group_order.size(); ++k) start[k + 1] += start[k];
  std::vector<long> order(group.size());
  for (std::size_t u = 0; u < group.size(); ++u) order[start[position[group[u]]]++] = u;
  return order;
}

}  // namespace

std::vector<double> multiply(const SymmetricMatrix &a, const std::vector<double> &x,
                             int n_columns) {
  // The matrix is read from memory once for several columns at a time.
  constexpr int width = 8;
  const long n = a.size();
  std::vector<double> y(x.size());
  parallel_for(0, (n_columns + width - 1) / width, [&](int slice) {
    using Row = std::array<double, width>;
    const int first = slice * width, count = std::min(width, n_columns - first);
    std::vector<Row> from(n, Row{}), to(n, Row{});
    for (int k = 0; k < count; ++k)
      for (long i = 0; i < n; ++i) from[i][k] = x[(first + k) * n + i];
    for (long c = 0; c < n; ++c) {
      Row sum{};
      for (long e = a.column_start[c]; e < a.column_start[c + 1]; ++e) {
        const Row &other = from[a.row[e]];
        for (int k = 0; k < width; ++k) sum[k] += a.value[e] * other[k];
        if (a.row[e] == c) continue;
        Row &below = to[a.row[e]];
        for (int k = 0; k < width; ++k) below[k] += a.value[e] * from[c][k];
      }
      for (int k = 0; k < width; ++k) to[c][k] += sum[k];
    }
    for (int k = 0; k < count; ++k)
      for (long i = 0; i < n; ++i) y[(first + k) * n + i] = to[i][k];
  });
  return y;
}

NotPositiveDefinite::NotPositiveDefinite(double ratio)
    : std::runtime_error("matrix not positive definite, pivot ratio " + std::to_string(ratio)),
      pivot_ratio(ratio) {}

struct SparseCholesky::Impl {
  cholmod_common common;
  cholmod_factor *factor = nullptr;
  std::vector<double> scaling;  ///< 1 / sqrt of the diagonal
  double ratio = 0;

  Impl() {
    cholmod_l_start(&common);
    common.supernodal = CHOLMOD_SUPERNODAL;
    common.print = 0;
    common.nmethods = 1;
    common.method[0].ordering = CHOLMOD_METIS;
    common.postorder = 1;
  }
  ~Impl() {
    cholmod_l_free_factor(&factor, &common);
    cholmod_l_finish(&common);
  }
  Impl(const Impl &) = delete;
  Impl &operator=(const Impl &) = delete;

  void order(const SymmetricMatrix &, const std::vector<int> &group, cholmod_sparse &scaled);
};

void SparseCholesky::Impl::order(const SymmetricMatrix &a, const std::vector<int> &group,
                                 cholmod_sparse &scaled) {
  if (!group.empty()) {
    const SymmetricMatrix pattern = group_pattern(a, group);
    cholmod_sparse groups = view(pattern, nullptr);
    std::vector<long> group_order(pattern.size());
    if (cholmod_l_metis(&groups, nullptr, 0, 1, group_order.data(), &common)) {
      std::vector<long> given = expanded(group_order, group);
      common.method[0].ordering = CHOLMOD_GIVEN;
      factor = cholmod_l_analyze_p(&scaled, given.data(), nullptr, 0, &common);
      return;
    }
  }
  factor = cholmod_l_analyze(&scaled, &common);
}

SparseCholesky::SparseCholesky(const SymmetricMatrix &a, const std::vector<int> &group)
    : impl_(std::make_unique<Impl>()) {
  const long n = a.size();
  assert(n > 0 && (group.empty() || static_cast<long>(group.size()) == n));
  impl_->scaling.resize(n);
  for (long c = 0; c < n; ++c) {
    const long first = a.column_start[c];
    const bool present = first < a.column_start[c + 1] && a.row[first] == c && a.value[first] > 0;
    if (!present) throw NotPositiveDefinite(0);
    impl_->scaling[c] = 1 / std::sqrt(a.value[first]);
  }
  std::vector<double> scaled_values(a.value.size());
  for (long c = 0; c < n; ++c)
    for (long e = a.column_start[c]; e < a.column_start[c + 1]; ++e)
      scaled_values[e] = a.value[e] * impl_->scaling[c] * impl_->scaling[a.row[e]];
  cholmod_sparse scaled = view(a, scaled_values.data());
  impl_->order(a, group, scaled);
  if (!impl_->factor || !cholmod_l_factorize(&scaled, impl_->factor, &impl_->common)) {
    if (impl_->common.status == CHOLMOD_OUT_OF_MEMORY || impl_->common.status == CHOLMOD_TOO_LARGE)
      throw std::bad_alloc();
    throw std::runtime_error("sparse Cholesky failed, status " +
                             std::to_string(impl_->common.status));
  }
  if (impl_->common.status == CHOLMOD_NOT_POSDEF) throw NotPositiveDefinite(0);
  impl_->ratio = cholmod_l_rcond(impl_->factor, &impl_->common);
  if (impl_->ratio < least_pivot_ratio) throw NotPositiveDefinite(impl_->ratio);
}

SparseCholesky::~SparseCholesky() = default;
SparseCholesky::SparseCholesky(SparseCholesky &&) noexcept = default;

std::vector<double> SparseCholesky::solve(const std::vector<double> &right_hand_sides,
                                          int n_columns) const {
  const long n = static_cast<long>(impl_->scaling.size());
  assert(static_cast<long>(right_hand_sides.size()) == n * n_columns);
  std::vector<double> x(right_hand_sides);
  const auto apply_scaling = [&] {
    for (int k = 0; k < n_columns; ++k)
      for (long i = 0; i < n; ++i) x[k * n + i] *= impl_->scaling[i];
  };
  apply_scaling();
  cholmod_dense b{};
  b.nrow = b.d = n;
  b.ncol = n_columns;
  b.nzmax = x.size();
  b.x = x.data();
  b.xtype = CHOLMOD_REAL;
  b.dtype = CHOLMOD_DOUBLE;
  cholmod_dense *solution = cholmod_l_solve(CHOLMOD_A, impl_->factor, &b, &impl_->common);
  if (!solution) throw std::bad_alloc();
  const double *s = static_cast<const double *>(solution->x);
  std::copy(s, s + x.size(), x.begin());
  cholmod_l_free_dense(&solution, &impl_->common);
  apply_scaling();
  return x;
}

double SparseCholesky::entries() const { return static_cast<double>(impl_->factor->xsize); }
double SparseCholesky::pivot_ratio() const { return impl_->ratio; }

}  // namespace felloe::detail
