// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/detail/cyclic_condensation.h"

#include <algorithm>
#include <cassert>
#include <complex>

#include "mesher/vec3.h"
#include "solver/detail/blas.h"
#include "solver/detail/parallel.h"

namespace felloe::detail {
namespace {

using Complex = std::complex<double>;

/// Where an unknown of the ring stands in the border of a sector: its own place and, on a cut, the
/// place that it has as an unknown of the sector before; else -1.
struct Place {
  long own = -1, in_sector_before = -1;
};

/// Unknowns of the cuts that go, then those that are kept.
struct RingUnknowns {
  std::vector<long> border;  ///< unknowns of the sector
  std::vector<long> own, in_sector_before;
  int n_going = 0;
};

RingUnknowns ring_unknowns(const SectorMatrix &s, const std::vector<long> &kept) {
  std::vector<long> partner(s.matrix.size(), -1);
  for (std::size_t i = 0; i < s.left.size(); ++i) partner[s.left[i]] = s.right[i];
  std::vector<bool> stays(s.matrix.size(), false);
  for (const long u : kept) stays[u] = true;
  RingUnknowns ring;
  for (const long u : s.left)
    if (!stays[u]) ring.own.push_back(u);
  ring.n_going = static_cast<int>(ring.own.size());
  ring.own.insert(ring.own.end(), kept.begin(), kept.end());
  for (const long u : ring.own) ring.in_sector_before.push_back(partner[u]);
  ring.border = ring.own;
  ring.border.insert(ring.border.end(), s.right.begin(), s.right.end());
  return ring;
}

std::vector<Place> places(const RingUnknowns &ring, const PartialCholesky &piece) {
  std::vector<long> at(piece.size(), -1);
  for (long i = 0; i < piece.border_size(); ++i) at[piece.border()[i]] = i;
  std::vector<Place> found;
  for (std::size_t i = 0; i < ring.own.size(); ++i) {
    const long before = ring.in_sector_before[i];
    found.push_back({at[ring.own[i]], before < 0 ? -1 : at[before]});
  }
  return found;
}

/// Lower triangle of one harmonic's matrix, W^H S W with W = 1 at the own place and exp(i t) at the
/// place in the sector before.
std::vector<Complex> harmonic_matrix(const PartialCholesky &piece, const std::vector<Place> &at,
                                     double angle) {
  const long n = static_cast<long>(at.size()), leading = piece.border_size();
  const Complex turn = std::polar(1.0, angle), back = std::conj(turn);
  std::vector<Complex> matrix(static_cast<std::size_t>(n) * n);
  const int n_slices = n_threads() * 8;
  parallel_for(0, n_slices, [&](int slice) {
    for (long j = slice; j < n; j += n_slices) {
      const double *own = piece.schur() + at[j].own * leading;
      const double *other =
          at[j].in_sector_before < 0 ? nullptr : piece.schur() + at[j].in_sector_before * leading;
      for (long i = j; i < n; ++i) {
        Complex sum = own[at[i].own];
        if (other) sum += turn * other[at[i].own];
        if (at[i].in_sector_before >= 0) {
          sum += back * own[at[i].in_sector_before];
          if (other) sum += other[at[i].in_sector_before];
        }
        matrix[j * n + i] = sum;
      }
    }
  });
  return matrix;
}

/// What is left of the lower triangle when the first unknowns are eliminated: n_kept x n_kept, both
/// triangles.
std::vector<Complex> eliminated(std::vector<Complex> matrix, int n, int n_going) {
  const int n_kept = n - n_going;
  int info = 0;
  Complex *below = matrix.data() + n_going;
  Complex *corner = matrix.data() + static_cast<std::size_t>(n_going) * n + n_going;
  if (n_going > 0) {
    zpotrf_("L", &n_going, matrix.data(), &n, &info);
    if (info != 0) throw NotPositiveDefinite(0);
    const Complex one = 1;
    const double minus = -1, plus = 1;
    ztrsm_("R", "L", "C", "N", &n_kept, &n_going, &one, matrix.data(), &n, below, &n);
    zherk_("L", "N", &n_kept, &n_going, &minus, below, &n, &plus, corner, &n);
  }
  std::vector<Complex> left(static_cast<std::size_t>(n_kept) * n_kept);
  for (long j = 0; j < n_kept; ++j)
    for (long i = j; i < n_kept; ++i) {
      left[j * n_kept + i] = corner[j * n + i];
      left[i * n_kept + j] = std::conj(corner[j * n + i]);
    }
  return left;
}

}  // namespace

CyclicStiffness condensed_ring(const SectorMatrix &s, const std::vector<long> &kept) {
  assert(s.adapter.empty());
  const RingUnknowns ring = ring_unknowns(s, kept);
  const PartialCholesky piece(s.matrix, ring.border, s.group);
  const std::vector<Place> at = places(ring, piece);
  const int n_sectors = s.n_sectors, n_kept = static_cast<int>(kept.size());
  CyclicStiffness result;
  result.n_ = n_kept;
  result.blocks_.assign(n_sectors,
                        std::vector<double>(static_cast<std::size_t>(n_kept) * n_kept, 0.0));
  for (int h = 0; 2 * h <= n_sectors; ++h) {
    const double angle = 2 * pi * h / n_sectors;
    const std::vector<Complex> of_harmonic =
        eliminated(harmonic_matrix(piece, at, angle), static_cast<int>(at.size()), ring.n_going);
    const double weight = (h == 0 || 2 * h == n_sectors ? 1.0 : 2.0) / n_sectors;
    for (int apart = 0; apart < n_sectors; ++apart) {
      const Complex factor = std::polar(weight, angle * apart);
      std::vector<double> &block = result.blocks_[apart];
      for (std::size_t e = 0; e < block.size(); ++e) block[e] += (factor * of_harmonic[e]).real();
    }
  }
  return result;
}

}  // namespace felloe::detail
