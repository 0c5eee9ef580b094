// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/detail/supernodal_solve.h"

#include <algorithm>

#include "solver/detail/blas.h"

namespace felloe::detail {

SupernodalSolve::SupernodalSolve(const SupernodalPattern &pattern, const double *numbers) {
  for (int s = 0; s < pattern.border(); ++s) {
    const int first = pattern.first_column[s], n_columns = pattern.first_column[s + 1] - first;
    const int n_rows = static_cast<int>(pattern.rows_begin[s + 1] - pattern.rows_begin[s]);
    nodes_.push_back({numbers + pattern.values_begin[s],
                      pattern.rows.data() + pattern.rows_begin[s] + n_columns, first, n_columns,
                      n_rows, n_rows - n_columns});
    most_below_ = std::max(most_below_, n_rows - n_columns);
  }
}

void SupernodalSolve::forward(double *x, int n_columns) const {
  const double one = 1, zero = 0;
  std::vector<double> update(1L * n_columns * most_below_);
  for (const Supernode &s : nodes_) {
    double *own = x + 1L * n_columns * s.first, *end = own + 1L * n_columns * s.n_columns;
    // most parts of a body carry no load
    if (std::all_of(own, end, [](double v) { return v == 0; })) continue;
    dtrsm_("R", "L", "T", "N", &n_columns, &s.n_columns, &one, s.value, &s.n_rows, own, &n_columns);
    if (s.n_below == 0) continue;
    dgemm_("N", "T", &n_columns, &s.n_below, &s.n_columns, &one, own, &n_columns,
           s.value + s.n_columns, &s.n_rows, &zero, update.data(), &n_columns);
    for (int k = 0; k < s.n_below; ++k) {
      double *row = x + 1L * n_columns * s.rows[k];
      const double *taken = update.data() + 1L * n_columns * k;
      for (int c = 0; c < n_columns; ++c) row[c] -= taken[c];
    }
  }
}

void SupernodalSolve::backward(double *x, int n_columns) const {
  const double one = 1, minus = -1;
  std::vector<double> below(1L * n_columns * most_below_);
  for (auto s = nodes_.rbegin(); s != nodes_.rend(); ++s) {
    double *own = x + 1L * n_columns * s->first;
    for (int k = 0; k < s->n_below; ++k)
      std::copy_n(x + 1L * n_columns * s->rows[k], n_columns, below.data() + 1L * n_columns * k);
    if (s->n_below > 0)
      dgemm_("N", "N", &n_columns, &s->n_columns, &s->n_below, &minus, below.data(), &n_columns,
             s->value + s->n_columns, &s->n_rows, &one, own, &n_columns);
    dtrsm_("R", "L", "N", "N", &n_columns, &s->n_columns, &one, s->value, &s->n_rows, own,
           &n_columns);
  }
}

}  // namespace felloe::detail
