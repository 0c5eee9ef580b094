// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/detail/dense_triangle.h"

#include <algorithm>

#include "solver/detail/blas.h"
#include "solver/detail/sparse_cholesky.h"

namespace felloe::detail {
namespace {

/// The same matrix as LAPACK sees it. Backwards it is the upper triangle of the matrix whose rows
/// and columns come in reverse order.
struct LapackView {
  const char *triangle;
  double *first;
  int leading;
};

LapackView view(const DenseTriangle &t, long n) {
  const int leading = static_cast<int>(t.leading);
  if (t.step == 1) return {"L", t.origin, leading};
  return {"U", t.origin - (n - 1) * (t.leading + 1), leading};
}

}  // namespace

void factor(const DenseTriangle &t, int n) {
  if (n == 0) return;
  const auto [triangle, first, leading] = view(t, n);
  int info = 0;
  dpotrf_(triangle, &n, first, &leading, &info);
  if (info != 0) throw NotPositiveDefinite(0);
}

void solve(const DenseTriangle &factor, int n, double *x, int n_columns) {
  if (n == 0 || n_columns == 0) return;
  const auto [triangle, first, leading] = view(factor, n);
  const auto in_its_order = [&] {
    if (factor.step == -1)
      for (int c = 0; c < n_columns; ++c) std::reverse(x + 1L * n * c, x + 1L * n * (c + 1));
  };
  in_its_order();
  int info = 0;
  dpotrs_(triangle, &n, &n_columns, first, &leading, x, &n, &info);
  in_its_order();
}

}  // namespace felloe::detail
