// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/detail/cyclic_system.h"

#include <algorithm>
#include <cmath>
#include <complex>

#include "mesher/vec3.h"
#include "solver/detail/blas.h"

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
  double angle = 0;   ///< t = 2 pi h / N
  double weight = 1;  ///< 2 when the conjugate harmonic is represented as well
  AdapterShape adapter;
  int n = 0;
  std::vector<Complex> factor;
};

}  // namespace

struct CyclicSystem::Impl {
  PartialCholesky piece;
  int n_sectors;
  long n;                                  ///< unknowns of a sector
  std::vector<long> left, right, adapter;  ///< places in the border
  std::vector<long> adapter_unknowns;
  std::vector<Harmonic> harmonics;

  explicit Impl(const SectorMatrix &);
  double schur(long row, long column) const {
    return piece.schur()[column * piece.border_size() + row];
  }
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
    harmonic.weight = h > 0 && 2 * h < n_sectors ? 2 : 1;
    if (!adapter.empty()) harmonic.adapter = adapter_shape(h, n_sectors);
    factor(harmonic);
    harmonics.push_back(std::move(harmonic));
  }
}

void CyclicSystem::Impl::factor(Harmonic &h) const {
  const long m = static_cast<long>(left.size());
  const long n_adapter = static_cast<long>(h.adapter.size());
  h.n = static_cast<int>(m + n_adapter);
  h.factor.assign(static_cast<std::size_t>(h.n) * h.n, Complex(0));
  const Complex forth = std::polar(1.0, h.angle), back = std::conj(forth);
  const auto at = [&](long row, long column) -> Complex & {
    return h.factor[static_cast<std::size_t>(column) * h.n + row];
  };
  for (long j = 0; j < m; ++j)
    for (long i = j; i < m; ++i)
      at(i, j) = schur(left[i], left[j]) + schur(right[i], right[j]) +
                 forth * schur(left[i], right[j]) + back * schur(right[i], left[j]);
  for (long p = 0; p < n_adapter; ++p) {
    for (long j = 0; j < m; ++j) {
      Complex sum = 0;
      for (int a = 0; a < 6; ++a)
        sum += std::conj(h.adapter[p][a]) *
               (schur(adapter[a], left[j]) + forth * schur(adapter[a], right[j]));
      at(m + p, j) = sum;
    }
    for (long q = 0; q <= p; ++q) {
      Complex sum = 0;
      for (int a = 0; a < 6; ++a)
        for (int b = 0; b < 6; ++b)
          sum += std::conj(h.adapter[p][a]) * schur(adapter[a], adapter[b]) * h.adapter[q][b];
      at(m + p, m + q) = sum;
    }
  }
  int info = 0;
  zpotrf_("L", &h.n, h.factor.data(), &h.n, &info);
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
  for (const Harmonic &h : impl_->harmonics) sum += 2.0 * h.n * h.n;
  return sum;
}

std::vector<double> CyclicSystem::solve(
    const std::vector<double> &right_hand_sides,
    const std::vector<std::array<double, 6>> &adapter_force) const {
  const int n_loads = static_cast<int>(adapter_force.size());
  const int columns = n_loads * impl_->n_sectors;
  std::vector<double> eliminated;
  const std::vector<double> condensed =
      impl_->piece.condense(right_hand_sides, columns, eliminated);
  std::vector<double> border_values(condensed.size(), 0.0);
  for (const Harmonic &h : impl_->harmonics) {
    std::vector<Complex> x = impl_->transformed(h, condensed, adapter_force);
    int info = 0;
    zpotrs_("L", &h.n, &n_loads, h.factor.data(), &h.n, x.data(), &h.n, &info);
    impl_->add_back(h, x, n_loads, border_values);
  }
  return impl_->piece.recover(border_values, columns, eliminated);
}

}  // namespace felloe::detail
