// SPDX-License-Identifier: GPL-3.0-or-later
// The border's block is read out of CHOLMOD's supernodal factor.
#include "solver/detail/partial_cholesky.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numeric>
#include <string>

#include "solver/detail/blas.h"
#include "solver/detail/cholmod_view.h"
#include "solver/detail/memory.h"

namespace felloe::detail {
namespace {

/// Added to the border's diagonal of the matrix scaled to a unit diagonal. Any positive number of
/// the diagonal's size serves: it is taken off again.
constexpr double shift = 1.0;

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

/// x = L x or L^T x.
void times_corner(const std::vector<double> &corner, const char *transposed, long m, int n_columns,
                  std::vector<double> &x) {
  const int n = static_cast<int>(m);
  const double one = 1;
  dtrmm_("L", "L", transposed, "N", &n, &n_columns, &one, corner.data(), &n, x.data(), &n);
}

}  // namespace

struct PartialCholesky::Impl {
  cholmod_common common;
  cholmod_factor *factor = nullptr;
  long n = 0, n_border = 0;
  std::vector<double> scaling;
  std::vector<long> border;           ///< unknowns
  std::vector<long> border_position;  ///< of border[i] in the factor's order
  std::vector<double> corner;         ///< L_BB, column by column, in the order of `border`
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
  void read_corner();
  void form_schur();
  void apply(int system, std::vector<double> &x, int n_columns);
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
  std::vector<double> values = scaled_values(a, p.scaling);
  for (const long b : border) values[a.column_start[b]] += shift;
  cholmod_sparse scaled = cholmod_view(a, values.data());
  std::vector<long> given = p.order(a, group);
  p.common.method[0].ordering = CHOLMOD_GIVEN;
  p.common.postorder = 1;
  p.factor = cholmod_l_analyze_p(&scaled, given.data(), nullptr, 0, &p.common);
  // the factor, the border's corner and Schur complement, and the harmonics' complex matrices
  const double corner = static_cast<double>(p.n_border) * static_cast<double>(p.n_border);
  if (p.factor) require_memory(8.0 * (static_cast<double>(p.factor->xsize) + 3.5 * corner));
  if (!p.factor || !cholmod_l_factorize(&scaled, p.factor, &p.common)) {
    if (p.common.status == CHOLMOD_OUT_OF_MEMORY || p.common.status == CHOLMOD_TOO_LARGE)
      throw std::bad_alloc();
    throw std::runtime_error("elimination failed, status " + std::to_string(p.common.status));
  }
  if (p.common.status == CHOLMOD_NOT_POSDEF) throw NotPositiveDefinite(0);
  p.read_corner();
  p.form_schur();
}

PartialCholesky::~PartialCholesky() = default;

/// The border unknowns keep their relative order in the factor: they form the last path of its
/// elimination tree. Interior branches that hang on a late border unknown may stand between them.
void PartialCholesky::Impl::read_corner() {
  const auto *permutation = static_cast<const long *>(factor->Perm);
  std::vector<long> place(n), index_at(n, -1);
  for (long k = 0; k < n; ++k) place[permutation[k]] = k;
  std::sort(border.begin(), border.end(), [&](long x, long y) { return place[x] < place[y]; });
  for (long i = 0; i < n_border; ++i) {
    border_position.push_back(place[border[i]]);
    index_at[place[border[i]]] = i;
  }
  corner.assign(static_cast<std::size_t>(n_border * n_border), 0.0);
  const auto *super = static_cast<const long *>(factor->super);
  const auto *rows_begin = static_cast<const long *>(factor->pi);
  const auto *values_begin = static_cast<const long *>(factor->px);
  const auto *rows = static_cast<const long *>(factor->s);
  const auto *values = static_cast<const double *>(factor->x);
  for (std::size_t s = 0; s < factor->nsuper; ++s) {
    const long n_rows = rows_begin[s + 1] - rows_begin[s];
    for (long column = super[s]; column < super[s + 1]; ++column) {
      const long j = index_at[column];
      if (j < 0) continue;
      const double *from = values + values_begin[s] + (column - super[s]) * n_rows;
      for (long k = column - super[s]; k < n_rows; ++k) {
        const long i = index_at[rows[rows_begin[s] + k]];
        if (i >= 0) corner[j * n_border + i] = from[k];
      }
    }
  }
}

/// S = L_BB L_BB^T - shift, back in the units of the matrix.
void PartialCholesky::Impl::form_schur() {
  schur.assign(corner.size(), 0.0);
  const long m = n_border, block = 192;
  const int leading = static_cast<int>(m);
  const double one = 1;
  for (long j = 0; j < m; j += block) {
    const int width = static_cast<int>(std::min(block, m - j)), rest = static_cast<int>(m - j);
    dsyrk_("L", "N", &rest, &width, &one, &corner[j * m + j], &leading, &one, &schur[j * m + j],
           &leading);
  }
  for (long j = 0; j < m; ++j) {
    schur[j * m + j] -= shift;
    for (long i = j; i < m; ++i) {
      schur[j * m + i] /= scaling[border[i]] * scaling[border[j]];
      schur[i * m + j] = schur[j * m + i];
    }
  }
}

void PartialCholesky::Impl::apply(int system, std::vector<double> &x, int n_columns) {
  cholmod_dense b = cholmod_view(x, n, n_columns);
  cholmod_dense *y = cholmod_l_solve(system, factor, &b, &common);
  if (!y) throw std::bad_alloc();
  const double *values = static_cast<const double *>(y->x);
  std::copy(values, values + x.size(), x.begin());
  cholmod_l_free_dense(&y, &common);
}

long PartialCholesky::size() const { return impl_->n; }
long PartialCholesky::border_size() const { return impl_->n_border; }
const std::vector<double> &PartialCholesky::schur() const { return impl_->schur; }
const std::vector<long> &PartialCholesky::border() const { return impl_->border; }
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
  times_corner(p.corner, "N", m, n_columns, g);
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
  times_corner(p.corner, "T", m, n_columns, z);
  for (int k = 0; k < n_columns; ++k)
    for (long i = 0; i < m; ++i) x[k * p.n + p.border_position[i]] = z[k * m + i];
  impl_->apply(CHOLMOD_Lt, x, n_columns);
  impl_->apply(CHOLMOD_Pt, x, n_columns);
  for (int k = 0; k < n_columns; ++k)
    for (long i = 0; i < p.n; ++i) x[k * p.n + i] *= p.scaling[i];
  return x;
}

}  // namespace felloe::detail
