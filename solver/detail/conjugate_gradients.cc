// SPDX-License-Identifier: GPL-3.0-or-later
// The textbook iteration (Saad, Iterative Methods for Sparse Linear Systems, algorithm 9.1).
#include "solver/detail/conjugate_gradients.h"

#include <cmath>

#include "solver/detail/in_shares.h"

namespace felloe::detail {

Iteration solve_by_conjugate_gradients(const CellOperator<double> &k, const Admissible &admissible,
                                       TwoLevel &preconditioner, long single_vector_size, double *r,
                                       double *x, double tolerance, int most) {
  AlignedVector<double> p(k.vector_size()), kp(k.vector_size());
  AlignedVector<float> rs(single_vector_size), z(single_vector_size);
  // The sum of body(i) over the components of all processes, share by share in a fixed order.
  const auto summed = [&](auto &&body) {
    std::vector<double> sums(k.n_shares());
    in_shares(k.n_shares(), [&](int s) {
      double sum = 0;
      const auto &share = k.shares()[s];
      for (long i = share.first_component; i < share.last_component; ++i) sum += body(i);
      sums[s] = sum;
    });
    double all = 0;
    for (const double s : sums) all += s;
    return k.exchange().sum(all);
  };

  const auto each = [&](auto &&body) {
    in_shares(k.n_shares(), [&](int s) {
      const auto &share = k.shares()[s];
      for (long i = share.first_component; i < share.last_component; ++i) body(i);
    });
  };

  const double start = std::sqrt(summed([&](long i) {
    x[i] = 0;
    return r[i] * r[i];
  }));
  Iteration state;
  if (start == 0) return state;
  double size = start, old_rz = 0;
  state.residual = 1;
  for (; state.count < most && !(state.residual <= tolerance); ++state.count) {
    // Single precision has few exponents: residuals are handed over at size one.
    each([&](long i) { rs[i] = static_cast<float>(r[i] / size); });
    preconditioner.apply(rs.data(), z.data());
    const double rz = size * summed([&](long i) { return r[i] * z[i]; });
    const double beta = state.count == 0 ? 0 : rz / old_rz;
    old_rz = rz;
    each([&](long i) { p[i] = size * z[i] + beta * p[i]; });
    // Rounding of the single-precision part must not leave the admissible space.
    admissible.project(p.data());
    k.multiply(p.data(), kp.data());
    admissible.project(kp.data());
    const double alpha = rz / summed([&](long i) { return p[i] * kp[i]; });
    size = std::sqrt(summed([&](long i) {
      x[i] += alpha * p[i];
      r[i] -= alpha * kp[i];
      return r[i] * r[i];
    }));
    state.residual = size / start;
    if (!std::isfinite(state.residual)) break;
  }
  return state;
}

}  // namespace felloe::detail
