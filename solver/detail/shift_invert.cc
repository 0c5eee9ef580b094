// SPDX-License-Identifier: GPL-3.0-or-later
// Lanczos by ARPACK, then inverse iteration on what is left.
#include "solver/detail/shift_invert.h"

#include <arpack/arpack.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <random>
#include <string>

#include "mesher/error.h"
#include "solver/detail/blas.h"
#include "solver/detail/parallel.h"

namespace felloe::detail {
namespace {

using Columns = std::vector<double>;  ///< n x k, one after the other

double product(const double *x, const double *y, long n) {
  return std::inner_product(x, x + n, y, 0.0);
}

/// Numbers between -1 and 1, the same on every run.
Columns random_columns(long n, int k) {
  std::mt19937 source(20260);
  Columns x(n * k);
  for (double &v : x) v = 2.0 * source() / std::mt19937::max() - 1;
  return x;
}

/// M x for one column; the general product is made for many.
Columns mass_times(const ShiftedPencil &p, const double *x) {
  const SymmetricMatrix &m = p.mass;
  Columns y(m.size(), 0.0);
  for (long c = 0; c < m.size(); ++c) {
    double sum = 0;
    for (long e = m.column_start[c]; e < m.column_start[c + 1]; ++e) {
      const long r = m.row[e];
      sum += m.value[e] * x[r];
      if (r != c) y[r] += m.value[e] * x[c];
    }
    y[c] += sum;
  }
  return y;
}

/// ARPACK's workspace and its loop of requests.
struct Lanczos {
  const ShiftedPencil &pencil;
  int n, wanted, n_basis;
  Columns start, basis, work, small_work;
  a_int parameters[11] = {}, pointers[14] = {};

  Lanczos(const ShiftedPencil &p, int count)
      : pencil(p),
        n(static_cast<int>(p.mass.size())),
        wanted(count),
        n_basis(std::min(n, std::max(2 * count, count + 20))),
        start(random_columns(n, 1)),
        basis(static_cast<std::size_t>(n) * n_basis),
        work(3 * static_cast<std::size_t>(n)),
        small_work(n_basis * (n_basis + 8)) {
    parameters[0] = 1;    // exact shifts
    parameters[2] = 100;  // restarts
    parameters[6] = 3;    // shift and invert
  }

  /// What ARPACK asks for: (K + s M)^-1 M x, or M x.
  void serve(a_int request) {
    const double *from = &work[pointers[0] - 1];
    double *to = &work[pointers[1] - 1];
    Columns y;
    if (request == 1) {  // M x stands ready
      const double *mx = &work[pointers[2] - 1];
      y = pencil.factor.solve(Columns(mx, mx + n), 1);
    } else {
      y = mass_times(pencil, from);
      if (request == -1) y = pencil.factor.solve(y, 1);
    }
    std::copy(y.begin(), y.end(), to);
  }

  Eigenpairs run() {
    const double tolerance = 1e-11;
    a_int request = 0, info = 1;  // 1: the start vector is given
    const auto fail = [&](const char *step) {
      throw Error("natural frequencies: Lanczos " + std::string(step) + " ended with code " +
                  std::to_string(info) + " after " + std::to_string(parameters[2]) +
                  " restarts; ask for fewer modes or check the mesh");
    };
    do {
      arpack::saupd(request, arpack::bmat::generalized, n, arpack::which::largest_magnitude, wanted,
                    tolerance, start.data(), n_basis, basis.data(), n, parameters, pointers,
                    work.data(), small_work.data(), static_cast<a_int>(small_work.size()), info);
      if (std::abs(request) == 1 || request == 2) serve(request);
    } while (request != 99);
    if (info != 0) fail("iteration");
    Eigenpairs found;
    found.value.resize(wanted);
    found.vector.resize(static_cast<std::size_t>(n) * wanted);
    std::vector<a_int> selected(n_basis);
    arpack::seupd(1, arpack::howmny::ritz_vectors, selected.data(), found.value.data(),
                  found.vector.data(), n, -pencil.shift, arpack::bmat::generalized, n,
                  arpack::which::largest_magnitude, wanted, tolerance, start.data(), n_basis,
                  basis.data(), n, parameters, pointers, work.data(), small_work.data(),
                  static_cast<a_int>(small_work.size()), info);
    if (info != 0) fail("vectors");
    return found;
  }
};

/// Takes off each column of x its part along the pairs found, in the scalar product of M.
void make_orthogonal(const ShiftedPencil &p, const Eigenpairs &found, Columns &x, int k) {
  const long n = p.mass.size();
  const Columns mx = multiply(p.mass, x, k);
  parallel_for(0, k, [&](int c) {
    for (std::size_t e = 0; e < found.value.size(); ++e) {
      const double *v = &found.vector[e * n];
      const double part = product(v, &mx[c * n], n);
      for (long i = 0; i < n; ++i) x[c * n + i] -= part * v[i];
    }
  });
}

/// Rayleigh-Ritz in the span of k columns: the columns become Ritz vectors, M-orthonormal; returns
/// their values of lambda + shift, ascending.
std::vector<double> ritz(const ShiftedPencil &p, Columns &x, int k) {
  const long n = p.mass.size();
  for (int c = 0; c < k; ++c) {
    const double size = std::sqrt(product(&x[c * n], &x[c * n], n));
    for (long i = 0; i < n; ++i) x[c * n + i] /= size;
  }
  const Columns ax = multiply(p.shifted, x, k), mx = multiply(p.mass, x, k);
  std::vector<double> a(k * k), m(k * k), values(k), work(10 * k);
  for (int i = 0; i < k; ++i)
    for (int j = 0; j < k; ++j) {
      a[i + k * j] = product(&x[i * n], &ax[j * n], n);
      m[i + k * j] = product(&x[i * n], &mx[j * n], n);
    }
  const int kind = 1, work_size = 10 * k;
  int info = 0;
  dsygv_(&kind, "V", "U", &k, a.data(), &k, m.data(), &k, values.data(), work.data(), &work_size,
         &info);
  if (info != 0) throw Error("natural frequencies: the search for multiple values broke down");
  Columns turned(x.size());
  for (int j = 0; j < k; ++j)
    for (int i = 0; i < k; ++i)
      for (long r = 0; r < n; ++r) turned[j * n + r] += a[i + k * j] * x[i * n + r];
  x = std::move(turned);
  return values;
}

/// Adds the pairs below the largest value found that Lanczos has left out.
void add_left_out(const ShiftedPencil &p, Eigenpairs &found) {
  const long n = p.mass.size();
  const int k = static_cast<int>(std::min<long>(6, n - static_cast<long>(found.value.size())));
  if (k <= 0) return;
  const double limit = found.value.back() + p.shift;
  Columns x = random_columns(n, k);
  make_orthogonal(p, found, x, k);
  constexpr int search = 3, settle = 30;
  std::vector<double> before(k, 0.0);
  for (int sweep = 1; sweep <= settle; ++sweep) {
    x = p.factor.solve(multiply(p.mass, x, k), k);
    make_orthogonal(p, found, x, k);
    const std::vector<double> values = ritz(p, x, k);
    bool settled = true;
    int below = 0;
    for (int c = 0; c < k; ++c) {
      if (values[c] > limit * (1 - 1e-9)) break;
      ++below;
      settled = settled && std::abs(values[c] - before[c]) < 1e-12 * values[c];
    }
    before = values;
    if (below == 0 && sweep >= search) return;
    if (below == 0 || !settled) continue;
    for (int c = 0; c < below; ++c) found.value.push_back(values[c] - p.shift);
    found.vector.insert(found.vector.end(), x.begin(), x.begin() + below * n);
    return;
  }
  throw Error("natural frequencies: a multiple value did not settle; ask for one mode more");
}

void keep_smallest(Eigenpairs &pairs, long n, int count) {
  std::vector<int> order(pairs.value.size());
  std::iota(order.begin(), order.end(), 0);
  std::stable_sort(order.begin(), order.end(),
                   [&](int a, int b) { return pairs.value[a] < pairs.value[b]; });
  order.resize(count);
  Eigenpairs kept;
  for (const int e : order) {
    kept.value.push_back(pairs.value[e]);
    kept.vector.insert(kept.vector.end(), pairs.vector.begin() + e * n,
                       pairs.vector.begin() + (e + 1) * n);
  }
  pairs = std::move(kept);
}

void fill_residuals(const ShiftedPencil &p, Eigenpairs &pairs) {
  const long n = p.mass.size();
  const int k = static_cast<int>(pairs.value.size());
  Columns rest = multiply(p.shifted, pairs.vector, k);
  const Columns mx = multiply(p.mass, pairs.vector, k);
  for (int c = 0; c < k; ++c)
    for (long i = 0; i < n; ++i) rest[c * n + i] -= (pairs.value[c] + p.shift) * mx[c * n + i];
  const Columns solved = p.factor.solve(rest, k);
  for (int c = 0; c < k; ++c) {
    const double square = product(&rest[c * n], &solved[c * n], n);
    pairs.residual.push_back(std::sqrt(std::abs(square) / (pairs.value[c] + p.shift)));
  }
}

}  // namespace

Eigenpairs smallest_eigenpairs(const ShiftedPencil &p, int count) {
  const long n = p.mass.size();
  // A few more than asked: values that end near the last one make it converge slowly.
  const int wanted = static_cast<int>(std::min<long>(count + 4, n - 1));
  Eigenpairs pairs = Lanczos(p, wanted).run();
  keep_smallest(pairs, n, wanted);
  add_left_out(p, pairs);
  keep_smallest(pairs, n, count);
  fill_residuals(p, pairs);
  return pairs;
}

}  // namespace felloe::detail
