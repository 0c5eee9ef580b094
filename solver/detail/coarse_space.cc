// SPDX-License-Identifier: GPL-3.0-or-later
// The shares of the coarse problem put together.
#include "solver/detail/coarse_space.h"

#include <algorithm>
#include <cmath>
#include <exception>

#include "solver/detail/blas.h"
#include "solver/detail/blas_threads.h"
#include "solver/detail/in_shares.h"

namespace felloe::detail {

CoarseSpace::CoarseSpace(const Mesh &mesh, const CellColumns &whole, const CellColumns &own,
                         int first_share, const CellOperator<double> &k,
                         const std::vector<Lame> &of_cells, const Admissible &everywhere)
    : exchange_(k.exchange()), n_vector_(3L * own.n_places()) {
  const CoarseColumns coarse = coarse_columns(mesh, whole);
  const CoarseUnknowns unknowns = coarse_unknowns(coarse, whole, everywhere);
  n_unknowns_ = unknowns.n_unknowns;
  n_border_ = unknowns.n_border;
  const CoarseInput in{whole, coarse, unknowns, everywhere, of_cells};
  for (int s = 0; s < own.n_shares(); ++s) parts_.emplace_back(in, first_share + s);
  in_shares(own.n_shares(), [&](int s) {
    parts_[s].assemble(in, k, k.shares()[s].first_batch, k.shares()[s].last_batch);
  });
  // A failure must reach all processes: they would wait for each other.
  std::vector<double> border(static_cast<std::size_t>(n_border_) * n_border_, 0.0);
  std::exception_ptr failure;
  try {
    for (CoarsePart &part : parts_) part.factor(unknowns, border);
  } catch (...) {
    failure = std::current_exception();
  }
  const double n_failed = exchange_.sum(failure ? 1.0 : 0.0);
  if (failure) std::rethrow_exception(failure);
  if (n_failed > 0) throw NotPositiveDefinite(0);
  for (CoarsePart &part : parts_) {
    part.finish(in, own);
    entries_ += part.entries();
  }
  exchange_.sum(&entries_, 1);
  if (n_border_ == 0) return;
  exchange_.sum(border.data(), border.size());
  factor_border(std::move(border));
}

/// Scaled to a unit diagonal like the factors of the insides.
void CoarseSpace::factor_border(std::vector<double> a) {
  const long n = n_border_;
  border_scaling_.resize(n);
  for (long i = 0; i < n; ++i) {
    double &diagonal = a[(n + 1) * i];
    if (!(diagonal > 0)) diagonal = 1;
    border_scaling_[i] = 1 / std::sqrt(diagonal);
  }
  for (long j = 0; j < n; ++j)
    for (long i = 0; i < n; ++i) a[n * j + i] *= border_scaling_[i] * border_scaling_[j];
  int info = 0;
  dpotrf_("L", &n_border_, a.data(), &n_border_, &info);
  if (info != 0) throw NotPositiveDefinite(0);
  double least = 1, most = 0;
  for (long i = 0; i < n; ++i) {
    least = std::min(least, a[(n + 1) * i]);
    most = std::max(most, a[(n + 1) * i]);
  }
  // As in SparseCholesky.
  const double ratio = std::pow(least / most, 2);
  if (ratio < 1e-14) throw NotPositiveDefinite(ratio);
  border_factor_ = std::move(a);
}

void CoarseSpace::solve_border(std::vector<double> &x) const {
  for (long i = 0; i < n_border_; ++i) x[i] *= border_scaling_[i];
  const int one = 1;
  int info = 0;
  dpotrs_("L", &n_border_, &one, border_factor_.data(), &n_border_, x.data(), &n_border_, &info);
  for (long i = 0; i < n_border_; ++i) x[i] *= border_scaling_[i];
}

void CoarseSpace::correct(float *r, float *e) {
  const OneBlasThread alone;
  const int n_parts = static_cast<int>(parts_.size());
  exchange_.fill_ghosts(r);
  std::vector<std::vector<double>> borders(n_parts, std::vector<double>(n_border_, 0.0));
  in_shares(n_parts, [&](int s) { parts_[s].restrict_and_condense(r, borders[s].data()); });
  std::vector<double> &x = borders[0];
  if (n_border_ > 0) {
    for (int s = 1; s < n_parts; ++s)
      for (int i = 0; i < n_border_; ++i) x[i] += borders[s][i];
    exchange_.sum(x.data(), x.size());
    solve_border(x);
  }
  std::fill(e, e + n_vector_, 0.0f);
  in_shares(n_parts, [&](int s) { parts_[s].recover_and_prolong(x.data(), e); });
  exchange_.add_ghosts(e);
}

}  // namespace felloe::detail
