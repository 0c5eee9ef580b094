// SPDX-License-Identifier: GPL-3.0-or-later
// Sparse Cholesky by CHOLMOD.
#include "solver/detail/sparse_cholesky.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <new>
#include <string>

#include "solver/detail/cholmod_view.h"
#include "solver/detail/memory.h"
#include "solver/detail/parallel.h"

namespace felloe::detail {
namespace {

/// Below this ratio the smallest pivot is rounding: a unit diagonal leaves 1e-16 times the length
/// of a few sums, while the softest bending of thin discs stays above 1e-11.
constexpr double least_pivot_ratio = 1e-14;

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
    std::vector<long> given = nested_dissection(a, group, common);
    if (!given.empty()) {
      common.method[0].ordering = CHOLMOD_GIVEN;
      factor = cholmod_l_analyze_p(&scaled, given.data(), nullptr, 0, &common);
      return;
    }
  }
  factor = cholmod_l_analyze(&scaled, &common);
}

SparseCholesky::SparseCholesky(const SymmetricMatrix &a, const std::vector<int> &group)
    : impl_(std::make_unique<Impl>()) {
  assert(a.size() > 0 && (group.empty() || static_cast<long>(group.size()) == a.size()));
  impl_->scaling = unit_diagonal_scaling(a);
  const std::vector<double> values = scaled_values(a, impl_->scaling);
  cholmod_sparse scaled = cholmod_view(a, values.data());
  impl_->order(a, group, scaled);
  if (impl_->factor) require_memory(8.0 * static_cast<double>(impl_->factor->xsize));
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
  cholmod_dense b = cholmod_view(x.data(), n, n_columns);
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
