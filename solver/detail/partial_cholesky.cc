// SPDX-License-Identifier: GPL-3.0-or-later
// Order, pattern, numbers, and the solves in shares of the right-hand sides.
#include "solver/detail/partial_cholesky.h"

#include <algorithm>
#include <limits>
#include <new>
#include <optional>
#include <utility>

#include "solver/detail/blas_threads.h"
#include "solver/detail/cholmod_view.h"
#include "solver/detail/memory.h"
#include "solver/detail/parallel.h"
#include "solver/detail/supernodal.h"
#include "solver/detail/supernodal_solve.h"

namespace felloe::detail {

struct PartialCholesky::Impl {
  long n_all = 0;            ///< unknowns of the matrix
  long n = 0, n_border = 0;  ///< of them present; of those, on the border
  std::vector<long> border;  ///< unknowns
  SupernodalPattern pattern;
  std::unique_ptr<double[]> numbers;  ///< not a vector, which would touch all of it twice
  std::unique_ptr<double[]> schur;    ///< likewise
  std::optional<SupernodalSolve> triangles;
  std::vector<long> place;   ///< of each unknown of the matrix in the factor's order; or -1
  std::vector<long> absent;  ///< unknowns of the matrix that have no place
  double pivot_ratio = 1;

  std::vector<long> interior(const SymmetricMatrix &, const std::vector<int> &group) const;
  std::vector<long> sorted(const std::vector<long> &position) const;
  double ratio_of_pivots(const SymmetricMatrix &) const;
};

/// Interior by nested dissection.
std::vector<long> PartialCholesky::Impl::interior(const SymmetricMatrix &a,
                                                  const std::vector<int> &group) const {
  if (n_all == n_border) return {};
  cholmod_common common;
  cholmod_l_start(&common);
  common.print = 0;
  std::vector<long> order = interior_order(a, border, group, common);
  cholmod_l_finish(&common);
  if (order.empty()) throw std::bad_alloc();
  return order;
}

/// Interior as given; absent unknowns left out.
std::vector<long> PartialCholesky::Impl::sorted(const std::vector<long> &position) const {
  std::vector<bool> stays(n_all, false);
  for (const long b : border) stays[b] = true;
  std::vector<long> all;
  for (long u = 0; u < n_all; ++u)
    if (!stays[u] && position[u] >= 0) all.push_back(u);
  std::stable_sort(all.begin(), all.end(),
                   [&](long x, long y) { return position[x] < position[y]; });
  return all;
}

namespace {

/// Upper triangle from the lower one, tile by tile.
void complete(double *a, long n) {
  constexpr long tile = 32;
  for (long j0 = 0; j0 < n; j0 += tile)
    for (long i0 = j0; i0 < n; i0 += tile)
      for (long j = j0; j < std::min(j0 + tile, n); ++j)
        for (long i = std::max(i0, j + 1); i < std::min(i0 + tile, n); ++i)
          a[i * n + j] = a[j * n + i];
}

}  // namespace

PartialCholesky::PartialCholesky(const SymmetricMatrix &a, const std::vector<long> &border,
                                 const std::vector<int> &group, const std::vector<long> &position,
                                 const std::optional<DenseTriangle> &corner)
    : impl_(std::make_unique<Impl>()) {
  Impl &p = *impl_;
  p.n_all = a.size();
  p.n_border = static_cast<long>(border.size());
  p.border = border;
  p.pattern = supernodal_pattern(a, position.empty() ? p.interior(a, group) : p.sorted(position),
                                 border, group);
  p.n = static_cast<long>(p.pattern.unknown.size());
  p.place.assign(p.n_all, -1);
  for (long k = 0; k < p.n; ++k) p.place[p.pattern.unknown[k]] = k;
  for (long u = 0; u < p.n_all; ++u)
    if (p.place[u] < 0) p.absent.push_back(u);
  const long n_numbers = p.pattern.values_begin.back();
  // the factor, the border's Schur complement, and the harmonics' complex matrices
  const double of_border = static_cast<double>(p.n_border) * static_cast<double>(p.n_border);
  require_memory(8.0 * (static_cast<double>(n_numbers) + (corner ? 1 : 2.5) * of_border));
  p.numbers.reset(new double[n_numbers]);
  if (!corner) p.schur.reset(new double[p.n_border * p.n_border]);
  fill_factor(a, p.pattern, p.numbers.get(),
              corner ? *corner : DenseTriangle{p.schur.get(), p.n_border, 1});
  if (!corner) complete(p.schur.get(), p.n_border);
  p.triangles.emplace(p.pattern, p.numbers.get());
  p.pivot_ratio = p.ratio_of_pivots(a);
}

PartialCholesky::~PartialCholesky() = default;

double PartialCholesky::Impl::ratio_of_pivots(const SymmetricMatrix &a) const {
  double least = std::numeric_limits<double>::infinity(), most = 0;
  for (int s = 0; s < pattern.border(); ++s) {
    const long n_rows = pattern.rows_begin[s + 1] - pattern.rows_begin[s];
    const int first = pattern.first_column[s];
    for (int c = first; c < pattern.first_column[s + 1]; ++c) {
      const double l = numbers[pattern.values_begin[s] + (c - first) * (n_rows + 1)];
      const double pivot = l * l / a.value[a.column_start[pattern.unknown[c]]];
      least = std::min(least, pivot);
      most = std::max(most, pivot);
    }
  }
  return most > 0 ? least / most : 1;
}

long PartialCholesky::size() const { return impl_->n_all; }
long PartialCholesky::border_size() const { return impl_->n_border; }
const double *PartialCholesky::schur() const { return impl_->schur.get(); }
const std::vector<long> &PartialCholesky::border() const { return impl_->border; }
double PartialCholesky::pivot_ratio() const { return impl_->pivot_ratio; }
double PartialCholesky::entries() const {
  return static_cast<double>(impl_->pattern.values_begin.back() +
                             (impl_->schur ? impl_->n_border * impl_->n_border : 0));
}

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

/// Rows that are turned from columns into rows, or back, at a time: they stay in the cache.
constexpr long tile = 128;

/// Columns side by side in the factor's order.
void gather(const std::vector<const SparseVector *> &columns, const std::vector<long> &place,
            long n, double *x) {
  const long width = static_cast<long>(columns.size());
  std::fill_n(x, n * width, 0.0);
  for (long c = 0; c < width; ++c)
    for (std::size_t e = 0; e < columns[c]->size(); ++e)
      if (const long k = place[columns[c]->at[e]]; k >= 0) x[k * width + c] = columns[c]->value[e];
}

void put(double value, bool add, double &to) { to = add ? to + value : value; }

void scatter(const double *x, const std::vector<long> &unknown, const std::vector<long> &absent,
             const WantedColumn *columns, long width) {
  const long n = static_cast<long>(unknown.size());
  for (long begin = 0; begin < n; begin += tile)
    for (long c = 0; c < width; ++c) {
      const WantedColumn &to = columns[c];
      const long end = std::min(begin + tile, n);
      for (long k = begin; k < end; ++k)
        put(to.first_weight * x[k * width + c], to.add, to.first[unknown[k]]);
      if (!to.second) continue;
      for (long k = begin; k < end; ++k)
        put(to.second_weight * x[k * width + c], to.add, to.second[unknown[k]]);
    }
  for (long c = 0; c < width; ++c) {
    if (columns[c].add) continue;
    for (const long u : absent) {
      columns[c].first[u] = 0;
      if (columns[c].second) columns[c].second[u] = 0;
    }
  }
}

}  // namespace

/// `eliminated`: for each share of the columns, row by row in the factor's order.
std::vector<double> PartialCholesky::condense(const std::vector<SparseVector> &right_hand_sides,
                                              RawVector<double> &eliminated) const {
  const Impl &p = *impl_;
  const long m = p.n_border, n_columns = static_cast<long>(right_hand_sides.size());
  const long first_of_border = p.n - m;
  eliminated.resize(p.n * n_columns);
  std::vector<double> g(static_cast<std::size_t>(m * n_columns));
  for_shares(static_cast<int>(n_columns), [&](int first, int last) {
    // a load on a part of the wheel leaves whole sectors without any
    std::vector<const SparseVector *> loaded;
    std::vector<long> place;
    for (long c = first; c < last; ++c)
      if (right_hand_sides[c].size() > 0) {
        loaded.push_back(&right_hand_sides[c]);
        place.push_back(c);
      }
    const long width = static_cast<long>(loaded.size()), all = last - first;
    double *keep = eliminated.data() + p.n * first;
    RawVector<double> packed(width < all ? p.n * width : 0);
    double *x = width < all ? packed.data() : keep;
    gather(loaded, p.place, p.n, x);
    if (width > 0) p.triangles->forward(x, static_cast<int>(width));
    for (long c = 0; c < width; ++c)
      for (long i = 0; i < m; ++i) g[place[c] * m + i] = x[(first_of_border + i) * width + c];
    if (width == all) return;
    for (long k = 0; k < p.n; ++k) {
      std::fill_n(keep + k * all, all, 0.0);
      for (long c = 0; c < width; ++c) keep[k * all + place[c] - first] = x[k * width + c];
    }
  });
  return g;
}

void PartialCholesky::recover(const std::vector<double> &border_values,
                              RawVector<double> eliminated,
                              const std::vector<WantedColumn> &columns) const {
  const Impl &p = *impl_;
  const long m = p.n_border;
  const long first_of_border = p.n - m;
  for_shares(static_cast<int>(columns.size()), [&](int first, int last) {
    const long width = last - first;
    double *x = eliminated.data() + p.n * first;
    for (long c = 0; c < width; ++c)
      for (long i = 0; i < m; ++i)
        x[(first_of_border + i) * width + c] = border_values[(first + c) * m + i];
    p.triangles->backward(x, static_cast<int>(width));
    scatter(x, p.pattern.unknown, p.absent, columns.data() + first, width);
  });
}

std::vector<double> PartialCholesky::condense(const std::vector<double> &right_hand_sides,
                                              int n_columns, RawVector<double> &eliminated) const {
  std::vector<SparseVector> columns(n_columns);
  for (int c = 0; c < n_columns; ++c)
    columns[c] = non_zeros(right_hand_sides.data() + size() * c, size());
  return condense(columns, eliminated);
}

std::vector<double> PartialCholesky::recover(const std::vector<double> &border_values,
                                             int n_columns, RawVector<double> eliminated) const {
  std::vector<double> solution(size() * n_columns);
  std::vector<WantedColumn> columns(n_columns);
  for (int c = 0; c < n_columns; ++c) columns[c].first = solution.data() + size() * c;
  recover(border_values, std::move(eliminated), columns);
  return solution;
}

}  // namespace felloe::detail
