// SPDX-License-Identifier: GPL-3.0-or-later
// The dense system of one circumferential harmonic of a mirrored ring.
#pragma once
#include <memory>
#include <optional>
#include <vector>

#include "solver/detail/mirrored_ring.h"

namespace felloe::detail {

enum Parity { even = 0, odd = 1 };

/// Half a sector under the conditions of one parity.
struct Half {
  std::optional<PartialCholesky> factor;
  DenseTriangle schur;                ///< on the border, until harmonics take its memory
  std::vector<long> cut;              ///< places in the border, -1 where held
  std::vector<long> adapter;          ///< six places in the border, -1 of the other parity
  std::vector<double> border_values;  ///< [column][border]
  RawVector<double> eliminated;       ///< what the factor keeps between its two steps
};

/// How one unknown of a harmonic's system stands on the borders of both halves.
struct Coupling {
  long place[2] = {-1, -1};
  double weight[2] = {0, 0};
};

/// One real system: a harmonic, or one parity of harmonic 0.
struct RingSystem {
  std::vector<Coupling> unknowns;  ///< those of the cut, then the adapter's
  DenseTriangle matrix;            ///< later its Cholesky factor
  std::unique_ptr<double[]> own;   ///< its memory; null when it has taken that of S

  int size() const { return static_cast<int>(unknowns.size()); }
};

/// The matrix of a system, not yet factored.
/// @param number  the harmonic; 0: its even part, -1: the odd part of harmonic 0
RingSystem ring_system(const WedgeMatrix &, const Half (&)[2], int number);

/// The matrices of one or two harmonics from 1 on in the memory of S+ and S-, which are lost.
std::vector<RingSystem> last_ring_systems(const WedgeMatrix &, const Half (&)[2],
                                          const std::vector<int> &numbers);

}  // namespace felloe::detail
