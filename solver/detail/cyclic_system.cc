// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/detail/cyclic_system.h"

#include <algorithm>
#include <cmath>
#include <complex>
#include <utility>

#include "mesher/vec3.h"
#include "solver/detail/blas.h"
#include "solver/detail/parallel.h"

namespace felloe::detail {
namespace {

using Complex = std::complex<double>;

/// How the adapter's six local motions hang on the free parameters of one harmonic.
using AdapterShape = std::vector<std::array<Complex, 6>>;

/// Harmonic 0: axial motions. Harmonic 1 of N > 2: local motions turn with the sector, q_k =
/// Re((ux - i uy) exp(i t k) (1, i)); of N = 2: plain sign changes.
AdapterShape adapter_shape(int harmonic, int n_sectors) {
  const Complex i(0, 1);
  if (harmonic == 0) return {{0, 0, 1, 0, 0, 0}, {0, 0, 0, 0, 0, 1}};
  if (harmonic != 1) return {};
  if (n_sectors == 2)
    return {{1, 0, 0, 0, 0, 0}, {0, 1, 0, 0, 0, 0}, {0, 0, 0, 1, 0, 0}, {0, 0, 0, 0, 1, 0}};
  return {{1, i, 0, 0, 0, 0}, {0, 0, 0, 1, i, 0}};
}

/// Work of the adapter force on each parameter.
Complex force_on(const std::array<Complex, 6> &shape, const std::array<double, 6> &force) {
  Complex sum = 0;
  for (int a = 0; a < 6; ++a) sum += std::conj(shape[a]) * force[a];
  return sum;
}

struct Harmonic {
  double angle = 0;      ///< t = 2 pi h / N
  double weight = 1;     ///< 2 when the conjugate harmonic is represented as well
  bool is_real = false;  ///< t = 0 or pi: matrix and right-hand sides are real
  AdapterShape adapter;
  int n = 0;
  std::vector<Complex> factor;
  std::vector<double> real_factor;  ///< instead, when real
};

/// The number itself, or its real part where it has no other.
template <class Number>
Number as(const Complex &);
template <>
Complex as<Complex>(const Complex &c) {
  return c;
}
template <>
double as<double>(const Complex &c) {
  return c.real();
}

/// Solutions in place of the right-hand sides.
void solve_harmonic(const Harmonic &h, int n_loads, std::vector<Complex> &x) {
  int info = 0;
  if (!h.is_real) {
    zpotrs_("L", &h.n, &n_loads, h.factor.data(), &h.n, x.data(), &h.n, &info);
    return;
  }
  std::vector<double> real(x.size());
  std::transform(x.begin(), x.end(), real.begin(), [](const Complex &c) { return c.real(); });
  dpotrs_("L", &h.n, &n_loads, h.real_factor.data(), &h.n, real.data(), &h.n, &info);
  std::copy(real.begin(), real.end(), x.begin());
}

}  // namespace

struct CyclicSystem::Impl {
  PartialCholesky piece;
  int n_sectors;
  long n;                                  ///< unknowns of a sector
  std::vector<long> left, right, adapter;  ///< places in the border
  std::vector<long> adapter_unknowns;
  std::vector<Harmonic> harmonics;

  explicit Impl(const SectorMatrix &);
  template <class Number>
  void fill(const Harmonic &, std::vector<Number> &) const;
  void factor(Harmonic &) const;
  std::vector<Complex> transformed(const Harmonic &, const std::vector<double> &condensed,
                                   const std::vector<std::array<double, 6>> &adapter_force) const;
  void add_back(const Harmonic &, const std::vector<Complex> &x, int n_loads,
                std::vector<double> &border_values) const;
};

namespace {

std::vector<long> border_of(const SectorMatrix &s) {
  std::vector<long> border(s.left);
  border.insert(border.end(), s.right.begin(), s.right.end());
  border.insert(border.end(), s.adapter.begin(), s.adapter.end());
  return border;
}

std::vector<long> places(const std::vector<long> &unknowns, const std::vector<long> &border,
                         long n) {
  std::vector<long> at(n, -1), found;
  for (std::size_t i = 0; i < border.size(); ++i) at[border[i]] = static_cast<long>(i);
  for (const long u : unknowns) found.push_back(at[u]);
  return found;
}

}  // namespace

CyclicSystem::Impl::Impl(const SectorMatrix &s)
    : piece(s.matrix, border_of(s), s.group), n_sectors(s.n_sectors), n(s.matrix.size()) {
  left = places(s.left, piece.border(), n);
  right = places(s.right, piece.border(), n);
  adapter = places(s.adapter, piece.border(), n);
  adapter_unknowns = s.adapter;
  for (int h = 0; 2 * h <= n_sectors; ++h) {
    Harmonic harmonic;
    harmonic.angle = 2 * pi * h / n_sectors;
    harmonic.is_real = h == 0 || 2 * h == n_sectors;
    harmonic.weight = harmonic.is_real ? 1 : 2;
    if (!adapter.empty()) harmonic.adapter = adapter_shape(h, n_sectors);
    factor(harmonic);
    harmonics.push_back(std::move(harmonic));
  }
}

/// Lower triangle of one harmonic's matrix.
template <class Number>
void CyclicSystem::Impl::fill(const Harmonic &h, std::vector<Number> &matrix) const {
  const long m = static_cast<long>(left.size()), n_adapter = h.n - m, leading = piece.border_size();
  matrix.assign(static_cast<std::size_t>(h.n) * h.n, Number(0));
  const Complex turn = std::polar(1.0, h.angle);
  const Number forth = as<Number>(turn), back = as<Number>(std::conj(turn));
  const double *schur = piece.schur();
  const int n_slices = 8 * n_threads();
  parallel_for(0, n_slices, [&](int slice) {
    for (long j = slice; j < m; j += n_slices) {
      const double *at_left = schur + left[j] * leading, *at_right = schur + right[j] * leading;
      Number *column = matrix.data() + j * h.n;
      for (long i = j; i < m; ++i)
        column[i] = at_left[left[i]] + at_right[right[i]] + forth * at_right[left[i]] +
                    back * at_left[right[i]];
      for (long p = 0; p < n_adapter; ++p)
        for (int a = 0; a < 6; ++a)
          column[m + p] += as<Number>(std::conj(h.adapter[p][a])) *
                           (at_left[adapter[a]] + forth * at_right[adapter[a]]);
    }
  });
  for (long p = 0; p < n_adapter; ++p)
    for (long q = 0; q <= p; ++q) {
      Complex sum = 0;
      for (int a = 0; a < 6; ++a)
        for (int b = 0; b < 6; ++b)
          sum += std::conj(h.adapter[p][a]) * schur[adapter[b] * leading + adapter[a]] *
                 h.adapter[q][b];
      matrix[(m + q) * h.n + m + p] = as<Number>(sum);
    }
}

void CyclicSystem::Impl::factor(Harmonic &h) const {
  h.n = static_cast<int>(left.size() + h.adapter.size());
  int info = 0;
  if (h.is_real) {
    fill(h, h.real_factor);
    dpotrf_("L", &h.n, h.real_factor.data(), &h.n, &info);
  } else {
    fill(h, h.factor);
    zpotrf_("L", &h.n, h.factor.data(), &h.n, &info);
  }
  if (info != 0) throw NotPositiveDefinite(0);
}

std::vector<Complex> CyclicSystem::Impl::transformed(
    const Harmonic &h, const std::vector<double> &condensed,
    const std::vector<std::array<double, 6>> &adapter_force) const {
  const long m = static_cast<long>(left.size()), border = piece.border_size();
  const long n_loads = static_cast<long>(adapter_force.size());
  std::vector<Complex> b(static_cast<std::size_t>(n_loads * h.n), Complex(0));
  for (long load = 0; load < n_loads; ++load) {
    Complex *to = b.data() + load * h.n;
    for (int k = 0; k < n_sectors; ++k) {
      const double *g = condensed.data() + (load * n_sectors + k) * border;
      const Complex own = std::polar(1.0, -h.angle * k), next = std::polar(1.0, -h.angle * (k + 1));
      for (long i = 0; i < m; ++i) to[i] += own * g[left[i]] + next * g[right[i]];
      for (std::size_t p = 0; p < h.adapter.size(); ++p)
        for (int a = 0; a < 6; ++a)
          to[m + static_cast<long>(p)] += own * std::conj(h.adapter[p][a]) * g[adapter[a]];
    }
    for (std::size_t p = 0; p < h.adapter.size(); ++p)
      to[m + static_cast<long>(p)] += force_on(h.adapter[p], adapter_force[load]);
  }
  return b;
}

void CyclicSystem::Impl::add_back(const Harmonic &h, const std::vector<Complex> &x, int n_loads,
                                  std::vector<double> &border_values) const {
  const long m = static_cast<long>(left.size()), border = piece.border_size();
  const double weight = h.weight / n_sectors;
  for (int load = 0; load < n_loads; ++load) {
    const Complex *from = x.data() + static_cast<long>(load) * h.n;
    for (int k = 0; k < n_sectors; ++k) {
      double *to = border_values.data() + (static_cast<long>(load) * n_sectors + k) * border;
      const Complex own = std::polar(weight, h.angle * k),
                    next = std::polar(weight, h.angle * (k + 1));
      for (long i = 0; i < m; ++i) {
        to[left[i]] += (own * from[i]).real();
        to[right[i]] += (next * from[i]).real();
      }
      for (std::size_t p = 0; p < h.adapter.size(); ++p)
        for (int a = 0; a < 6; ++a)
          to[adapter[a]] += (own * h.adapter[p][a] * from[m + static_cast<long>(p)]).real();
    }
  }
}

CyclicSystem::CyclicSystem(const SectorMatrix &s) : impl_(std::make_unique<Impl>(s)) {}
CyclicSystem::~CyclicSystem() = default;

double CyclicSystem::entries() const {
  double sum = impl_->piece.entries();
  for (const Harmonic &h : impl_->harmonics) sum += (h.is_real ? 1.0 : 2.0) * h.n * h.n;
  return sum;
}

std::vector<double> CyclicSystem::solve(
    const std::vector<double> &right_hand_sides,
    const std::vector<std::array<double, 6>> &adapter_force) const {
  const int n_loads = static_cast<int>(adapter_force.size());
  const int columns = n_loads * impl_->n_sectors;
  RawVector<double> eliminated;
  const std::vector<double> condensed =
      impl_->piece.condense(right_hand_sides, columns, eliminated);
  std::vector<double> border_values(condensed.size(), 0.0);
  for (const Harmonic &h : impl_->harmonics) {
    std::vector<Complex> x = impl_->transformed(h, condensed, adapter_force);
    solve_harmonic(h, n_loads, x);
    impl_->add_back(h, x, n_loads, border_values);
  }
  return impl_->piece.recover(border_values, columns, std::move(eliminated));
}

}  // namespace felloe::detail
