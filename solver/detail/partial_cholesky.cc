// SPDX-License-Identifier: GPL-3.0-or-later
// Ordering and symbolic phase by CHOLMOD, numbers by fill_factor().
#include "solver/detail/partial_cholesky.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <new>
#include <string>

#include "solver/detail/blas_threads.h"
#include "solver/detail/cholmod_view.h"
#include "solver/detail/memory.h"
#include "solver/detail/parallel.h"
#include "solver/detail/supernodal.h"

namespace felloe::detail {
namespace {

/// The matrix of the unknowns not marked, and their numbers.
SymmetricMatrix submatrix(const SymmetricMatrix &a, const std::vector<long> &new_number) {
  SymmetricMatrix sub;
  sub.column_start.push_back(0);
  for (long c = 0; c < a.size(); ++c) {
    if (new_number[c] < 0) continue;
    for (long e = a.column_start[c]; e < a.column_start[c + 1]; ++e)
      if (new_number[a.row[e]] >= 0) sub.row.push_back(new_number[a.row[e]]);
    sub.column_start.push_back(static_cast<long>(sub.row.size()));
  }
  return sub;
}

}  // namespace

struct PartialCholesky::Impl {
  cholmod_common common;
  cholmod_factor *factor = nullptr;
  long n = 0, n_border = 0;
  std::vector<double> scaling;
  std::vector<long> border;           ///< unknowns
  std::vector<long> border_position;  ///< of border[i] in the factor's order
  std::vector<double> schur;

  Impl() {
    cholmod_l_start(&common);
    common.supernodal = CHOLMOD_SUPERNODAL;
    common.print = 0;
    common.nmethods = 1;
  }
  ~Impl() {
    cholmod_l_free_factor(&factor, &common);
    cholmod_l_finish(&common);
  }
  Impl(const Impl &) = delete;
  Impl &operator=(const Impl &) = delete;

  std::vector<long> order(const SymmetricMatrix &, const std::vector<int> &group);
  void sort_border();
  void complete_schur();
  void apply(int system, std::vector<double> &x, int n_columns) const;
};

/// Interior by nested dissection, border behind it.
std::vector<long> PartialCholesky::Impl::order(const SymmetricMatrix &a,
                                               const std::vector<int> &group) {
  std::vector<long> number(n, 0), interior;
  for (const long b : border) number[b] = -1;
  std::vector<int> interior_group, renumbered(n, -1);
  int n_groups = 0;
  for (long u = 0; u < n; ++u) {
    if (number[u] < 0) continue;
    number[u] = static_cast<long>(interior.size());
    interior.push_back(u);
    const long g = group.empty() ? u : group[u];
    if (renumbered[g] < 0) renumbered[g] = n_groups++;
    interior_group.push_back(renumbered[g]);
  }
  const std::vector<long> inside = nested_dissection(submatrix(a, number), interior_group, common);
  assert(!inside.empty());
  std::vector<long> all;
  for (const long i : inside) all.push_back(interior[i]);
  all.insert(all.end(), border.begin(), border.end());
  return all;
}

PartialCholesky::PartialCholesky(const SymmetricMatrix &a, const std::vector<long> &border,
                                 const std::vector<int> &group)
    : impl_(std::make_unique<Impl>()) {
  Impl &p = *impl_;
  p.n = a.size();
  p.n_border = static_cast<long>(border.size());
  p.border = border;
  p.scaling = unit_diagonal_scaling(a);
  const std::vector<double> values = scaled_values(a, p.scaling);
  cholmod_sparse scaled = cholmod_view(a, values.data());
  std::vector<long> given = p.order(a, group);
  p.common.method[0].ordering = CHOLMOD_GIVEN;
  p.common.postorder = 1;
  p.factor = cholmod_l_analyze_p(&scaled, given.data(), nullptr, 0, &p.common);
  // the factor, the border's Schur complement, and the harmonics' complex matrices
  const double corner = static_cast<double>(p.n_border) * static_cast<double>(p.n_border);
  if (p.factor) require_memory(8.0 * (static_cast<double>(p.factor->xsize) + 2.5 * corner));
  if (!p.factor) {
    if (p.common.status == CHOLMOD_OUT_OF_MEMORY || p.common.status == CHOLMOD_TOO_LARGE)
      throw std::bad_alloc();
    throw std::runtime_error("elimination failed, status " + std::to_string(p.common.status));
  }
  p.sort_border();
  p.schur = fill_factor(a, values, p.border, *p.factor, p.common);
  p.complete_schur();
}

PartialCholesky::~PartialCholesky() = default;

/// The border unknowns keep their relative order in the factor: they form the last path of its
/// elimination tree. Interior branches that hang on a late border unknown may stand between them.
void PartialCholesky::Impl::sort_border() {
  const auto *permutation = static_cast<const long *>(factor->Perm);
  std::vector<long> place(n);
  for (long k = 0; k < n; ++k) place[permutation[k]] = k;
  std::sort(border.begin(), border.end(), [&](long x, long y) { return place[x] < place[y]; });
  for (const long b : border) border_position.push_back(place[b]);
}

/// The upper triangle, and the units of the matrix.
void PartialCholesky::Impl::complete_schur() {
  const long m = n_border;
  for (long j = 0; j < m; ++j)
    for (long i = j; i < m; ++i) {
      schur[j * m + i] /= scaling[border[i]] * scaling[border[j]];
      schur[i * m + j] = schur[j * m + i];
    }
}

/// Columns are shared among the processors.
void PartialCholesky::Impl::apply(int system, std::vector<double> &x, int n_columns) const {
  const OneBlasThread alone;
  in_parallel([&](int t) {
    const long begin = 1L * n_columns * t / n_threads(),
               end = 1L * n_columns * (t + 1) / n_threads();
    if (begin == end) return;
    cholmod_common own;
    cholmod_l_start(&own);
    cholmod_dense b = cholmod_view(x.data() + begin * n, n, static_cast<int>(end - begin));
    cholmod_dense *y = cholmod_l_solve(system, factor, &b, &own);
    if (y) std::copy_n(static_cast<const double *>(y->x), (end - begin) * n, x.data() + begin * n);
    const bool done = y != nullptr;
    cholmod_l_free_dense(&y, &own);
    cholmod_l_finish(&own);
    if (!done) throw std::bad_alloc();
  });
}

long PartialCholesky::size() const { return impl_->n; }
long PartialCholesky::border_size() const { return impl_->n_border; }
const std::vector<double> &PartialCholesky::schur() const { return impl_->schur; }
const std::vector<long> &PartialCholesky::border() const { return impl_->border; }
double PartialCholesky::pivot_ratio() const {
  return cholmod_l_rcond(impl_->factor, &impl_->common);
}
double PartialCholesky::entries() const { return static_cast<double>(impl_->factor->xsize); }

std::vector<double> PartialCholesky::condense(const std::vector<double> &right_hand_sides,
                                              int n_columns,
                                              std::vector<double> &eliminated) const {
  const Impl &p = *impl_;
  const long m = p.n_border;
  eliminated = right_hand_sides;
  for (int k = 0; k < n_columns; ++k)
    for (long i = 0; i < p.n; ++i) eliminated[k * p.n + i] *= p.scaling[i];
  impl_->apply(CHOLMOD_P, eliminated, n_columns);
  impl_->apply(CHOLMOD_L, eliminated, n_columns);
  std::vector<double> g(static_cast<std::size_t>(m * n_columns));
  for (int k = 0; k < n_columns; ++k)
    for (long i = 0; i < m; ++i) g[k * m + i] = eliminated[k * p.n + p.border_position[i]];
  for (int k = 0; k < n_columns; ++k)
    for (long i = 0; i < m; ++i) g[k * m + i] /= p.scaling[p.border[i]];
  return g;
}

std::vector<double> PartialCholesky::recover(const std::vector<double> &border_values,
                                             int n_columns,
                                             const std::vector<double> &eliminated) const {
  const Impl &p = *impl_;
  const long m = p.n_border;
  std::vector<double> z(border_values), x(eliminated);
  for (int k = 0; k < n_columns; ++k)
    for (long i = 0; i < m; ++i) z[k * m + i] /= p.scaling[p.border[i]];
  for (int k = 0; k < n_columns; ++k)
    for (long i = 0; i < m; ++i) x[k * p.n + p.border_position[i]] = z[k * m + i];
  impl_->apply(CHOLMOD_Lt, x, n_columns);
  impl_->apply(CHOLMOD_Pt, x, n_columns);
  for (int k = 0; k < n_columns; ++k)
    for (long i = 0; i < p.n; ++i) x[k * p.n + i] *= p.scaling[i];
  return x;
}

}  // namespace felloe::detail
