// SPDX-License-Identifier: GPL-3.0-or-later
// Chebyshev iteration (Saad, Iterative Methods for Sparse Linear Systems, algorithm 12.1) round one
// coarse correction.
#include "solver/detail/two_level.h"

#include <algorithm>
#include <cmath>

#include "solver/detail/in_shares.h"

namespace felloe::detail {

TwoLevel::TwoLevel(const CellOperator<float> &k, const ColumnBlocks &blocks, CoarseSpace &coarse,
                   const Admissible &admissible, SmootherSettings settings)
    : k_(k),
      blocks_(blocks),
      coarse_(coarse),
      admissible_(admissible),
      settings_(settings),
      d_(k.vector_size()),
      y_(k.vector_size()) {
  largest_ = 1.1 * estimated_largest();
}

/// Power iteration on B^-1 K; a dozen steps come within a few per cent.
double TwoLevel::estimated_largest() {
  const long n = k_.n_unknowns();
  const auto length = [&] {
    std::vector<double> sums(k_.n_shares());
    in_shares(k_.n_shares(), [&](int s) {
      const auto &share = k_.shares()[s];
      double sum = 0;
      for (long i = share.first_component; i < share.last_component; ++i)
        sum += double(d_[i]) * d_[i];
      sums[s] = sum;
    });
    double all = 0;
    for (const double s : sums) all += s;
    return std::sqrt(k_.exchange().sum(all));
  };
  unsigned state = 12345;
  for (long i = 0; i < n; ++i) {
    state = state * 1664525u + 1013904223u;
    d_[i] = static_cast<float>(state >> 8) / (1 << 24) - 0.5f;
  }
  AlignedVector<float> r(k_.vector_size());
  double largest = 0;
  for (int step = 0; step < 15; ++step) {
    admissible_.project(d_.data());
    const double size = length();
    if (!(size > 0)) return 1;
    const float factor = static_cast<float>(1 / size);
    for (long i = 0; i < n; ++i) d_[i] *= factor;
    k_.multiply(d_.data(), r.data());
    admissible_.project(r.data());
    // Rayleigh quotient (d, K d) / (d, B d) would need B; the growth of the norm does as well.
    in_shares(k_.n_shares(),
              [&](int s) { blocks_.step(s, nullptr, r.data(), d_.data(), nullptr, 0.0f, 1.0f); });
    admissible_.project(d_.data());
    largest = length();
  }
  return largest;
}

void TwoLevel::smooth(float *r, float *x, bool keep_residual) {
  const double theta = 0.5 * largest_ * (1 + 1 / settings_.range);
  const double delta = 0.5 * largest_ * (1 - 1 / settings_.range);
  double rho = delta / theta;
  for (int k = 0; k < settings_.degree; ++k) {
    const double next = k == 0 ? rho : 1 / (2 * theta / delta - rho);
    const float old_weight = k == 0 ? 0.0f : static_cast<float>(next * rho);
    const float new_weight = static_cast<float>(k == 0 ? 1 / theta : 2 * next / delta);
    rho = next;
    in_shares(k_.n_shares(), [&](int s) {
      blocks_.step(s, k == 0 ? nullptr : y_.data(), r, d_.data(), k == 0 ? nullptr : x, old_weight,
                   new_weight);
    });
    admissible_.project(d_.data());
    if (k + 1 == settings_.degree && !keep_residual) break;
    k_.multiply(d_.data(), y_.data());
    admissible_.project(y_.data());
  }
  in_shares(k_.n_shares(), [&](int s) {
    const auto &share = k_.shares()[s];
    for (long i = share.first_component; i < share.last_component; ++i) {
      x[i] += d_[i];
      if (keep_residual) r[i] -= y_[i];
    }
  });
}

void TwoLevel::apply(float *r, float *z) {
  std::fill(z, z + k_.n_unknowns(), 0.0f);
  smooth(r, z, true);
  coarse_.correct(r, d_.data());
  admissible_.project(d_.data());
  k_.multiply(d_.data(), y_.data());
  admissible_.project(y_.data());
  in_shares(k_.n_shares(), [&](int s) {
    const auto &share = k_.shares()[s];
    for (long i = share.first_component; i < share.last_component; ++i) {
      z[i] += d_[i];
      r[i] -= y_[i];
    }
  });
  smooth(r, z, false);
}

}  // namespace felloe::detail
