// SPDX-License-Identifier: GPL-3.0-or-later
// Ordering and symbolic phase by CHOLMOD, numbers by fill_factor().
#include "solver/detail/partial_cholesky.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <new>
#include <optional>
#include <string>

#include "solver/detail/blas_threads.h"
#include "solver/detail/cholmod_view.h"
#include "solver/detail/memory.h"
#include "solver/detail/parallel.h"
#include "solver/detail/supernodal.h"
#include "solver/detail/supernodal_solve.h"

namespace felloe::detail {

struct PartialCholesky::Impl {
  cholmod_common common;
  cholmod_factor *factor = nullptr;
  long n = 0, n_border = 0;
  std::vector<double> scaling;
  std::vector<long> border;           ///< unknowns
  std::vector<long> border_position;  ///< of border[i] in the factor's order
  std::vector<double> schur;
  std::optional<SupernodalSolve> triangles;

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
  std::vector<long> sorted(const std::vector<long> &position) const;
  void sort_border();
  void complete_schur();
  std::vector<long> places() const;
};

/// Interior by nested dissection, border behind it.
std::vector<long> PartialCholesky::Impl::order(const SymmetricMatrix &a,
                                               const std::vector<int> &group) {
  std::vector<long> all = interior_order(a, border, group, common);
  assert(!all.empty());
  all.insert(all.end(), border.begin(), border.end());
  return all;
}

/// Interior as given, border behind it.
std::vector<long> PartialCholesky::Impl::sorted(const std::vector<long> &position) const {
  std::vector<bool> stays(n, false);
  for (const long b : border) stays[b] = true;
  std::vector<long> all;
  for (long u = 0; u < n; ++u)
    if (!stays[u]) all.push_back(u);
  std::stable_sort(all.begin(), all.end(),
                   [&](long x, long y) { return position[x] < position[y]; });
  all.insert(all.end(), border.begin(), border.end());
  return all;
}

PartialCholesky::PartialCholesky(const SymmetricMatrix &a, const std::vector<long> &border,
                                 const std::vector<int> &group, const std::vector<long> &position)
    : impl_(std::make_unique<Impl>()) {
  Impl &p = *impl_;
  p.n = a.size();
  p.n_border = static_cast<long>(border.size());
  p.border = border;
  p.scaling = unit_diagonal_scaling(a);
  const std::vector<double> values = scaled_values(a, p.scaling);
  cholmod_sparse scaled = cholmod_view(a, values.data());
  std::vector<long> given = position.empty() ? p.order(a, group) : p.sorted(position);
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
  std::vector<int> n_eliminated;
  p.schur = fill_factor(a, values, p.border, *p.factor, p.common, n_eliminated);
  p.triangles.emplace(*p.factor, n_eliminated);
  p.complete_schur();
}

PartialCholesky::~PartialCholesky() = default;

/// Of each unknown: its place in the factor's order.
std::vector<long> PartialCholesky::Impl::places() const {
  const auto *permutation = static_cast<const long *>(factor->Perm);
  std::vector<long> place(n);
  for (long k = 0; k < n; ++k) place[permutation[k]] = k;
  return place;
}

/// The border unknowns keep their relative order in the factor: they form the last path of its
/// elimination tree. Interior branches that hang on a late border unknown may stand between them.
void PartialCholesky::Impl::sort_border() {
  const std::vector<long> place = places();
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

long PartialCholesky::size() const { return impl_->n; }
long PartialCholesky::border_size() const { return impl_->n_border; }
const std::vector<double> &PartialCholesky::schur() const { return impl_->schur; }
const std::vector<long> &PartialCholesky::border() const { return impl_->border; }
double PartialCholesky::pivot_ratio() const {
  return cholmod_l_rcond(impl_->factor, &impl_->common);
}
double PartialCholesky::entries() const { return static_cast<double>(impl_->factor->xsize); }

namespace {

/// Calls work(first, last) for a share of the columns on each processor, BLAS on one each.
template <class F>
void for_shares(int n_columns, F &&work) {
  const OneBlasThread alone;
  const int n_shares = std::min(n_columns, n_threads());
  if (n_shares == 0) return;
  in_parallel(n_shares, [&](int t) {
    work(static_cast<int>(1L * n_columns * t / n_shares),
         static_cast<int>(1L * n_columns * (t + 1) / n_shares));
  });
}

}  // namespace

/// `eliminated`: for each share of the columns, row by row in the factor's order.
std::vector<double> PartialCholesky::condense(const std::vector<double> &right_hand_sides,
                                              int n_columns,
                                              std::vector<double> &eliminated) const {
  const Impl &p = *impl_;
  const long m = p.n_border;
  const auto *permutation = static_cast<const long *>(p.factor->Perm);
  eliminated.resize(right_hand_sides.size());
  std::vector<double> g(static_cast<std::size_t>(m * n_columns));
  for_shares(n_columns, [&](int first, int last) {
    // a load on a part of the wheel leaves whole sectors without any
    std::vector<long> loaded;
    for (long c = first; c < last; ++c) {
      const double *f = right_hand_sides.data() + p.n * c;
      if (std::any_of(f, f + p.n, [](double v) { return v != 0; })) loaded.push_back(c);
    }
    const long width = static_cast<long>(loaded.size()), all = last - first;
    double *keep = eliminated.data() + p.n * first;
    std::vector<double> packed(width < all ? p.n * width : 0);
    double *x = width < all ? packed.data() : keep;
    for (long k = 0; k < p.n; ++k) {
      const long u = permutation[k];
      for (long c = 0; c < width; ++c)
        x[k * width + c] = right_hand_sides[loaded[c] * p.n + u] * p.scaling[u];
    }
    if (width > 0) p.triangles->forward(x, static_cast<int>(width));
    for (long c = 0; c < width; ++c)
      for (long i = 0; i < m; ++i)
        g[loaded[c] * m + i] = x[p.border_position[i] * width + c] / p.scaling[p.border[i]];
    if (width == all) return;
    for (long k = 0; k < p.n; ++k) {
      std::fill_n(keep + k * all, all, 0.0);
      for (long c = 0; c < width; ++c) keep[k * all + loaded[c] - first] = x[k * width + c];
    }
  });
  return g;
}

std::vector<double> PartialCholesky::recover(const std::vector<double> &border_values,
                                             int n_columns, std::vector<double> eliminated) const {
  const Impl &p = *impl_;
  const long m = p.n_border;
  const auto *permutation = static_cast<const long *>(p.factor->Perm);
  std::vector<double> solution(eliminated.size());
  for_shares(n_columns, [&](int first, int last) {
    const long width = last - first;
    double *x = eliminated.data() + p.n * first;
    for (long c = 0; c < width; ++c)
      for (long i = 0; i < m; ++i)
        x[p.border_position[i] * width + c] =
            border_values[(first + c) * m + i] / p.scaling[p.border[i]];
    p.triangles->backward(x, static_cast<int>(width));
    double *to = solution.data() + p.n * first;
    for (long k = 0; k < p.n; ++k) {
      const long u = permutation[k];
      for (long c = 0; c < width; ++c) to[c * p.n + u] = x[k * width + c] * p.scaling[u];
    }
  });
  return solution;
}

}  // namespace felloe::detail
