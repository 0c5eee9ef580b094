// SPDX-License-Identifier: GPL-3.0-or-later
// A body of N equal sectors: one sector factored, the rest a small problem for each circumferential
// harmonic.
#pragma once
#include <array>
#include <memory>
#include <vector>

#include "solver/detail/partial_cholesky.h"

namespace felloe::detail {

/// One sector's matrix in coordinates that turn with the sector, so that all sectors are equal.
struct SectorMatrix {
  SymmetricMatrix matrix;
  std::vector<int> group;         ///< see SparseCholesky
  std::vector<long> left, right;  ///< unknowns of both cuts; right[i] is left[i] of the next sector
  std::vector<long> adapter;      ///< six unknowns ux uy uz rx ry rz in the sector's frame, or none
  int n_sectors = 0;              ///< at least 2
};

/// Exact solution of the whole ring of sectors.
///
/// Interiors are eliminated, S = [S_LL S_LR S_LQ; ...] stays. With the discrete Fourier transform
/// x^_h = sum_k exp(-i t k) x_k, t = 2 pi h / N, the ring falls apart into one Hermitian system a
/// harmonic h:  S_LL + S_RR + exp(i t) S_LR + exp(-i t) S_RL. The adapter, one rigid body for all
/// sectors, shows in harmonic 0 (axial motions) and 1 (lateral motions) only.
/// Source: block-circulant matrices, P. J. Davis, Circulant Matrices, 1979, chapter 5.
class CyclicSystem {
 public:
  /// Throws NotPositiveDefinite when the ring can move freely.
  explicit CyclicSystem(const SectorMatrix &);
  ~CyclicSystem();

  /// @param right_hand_sides  [load][sector][unknown]; forces on a cut count once, on the left cut
  ///                          of the sector that begins there; the adapter's entries are zero
  /// @param adapter_force     [load] force and moment on the adapter in the frame of sector 0
  /// @return                  [load][sector][unknown], adapter entries in each sector's frame
  std::vector<double> solve(const std::vector<double> &right_hand_sides,
                            const std::vector<std::array<double, 6>> &adapter_force) const;

  double entries() const;  ///< stored numbers of the sector's factor and of the harmonics'

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace felloe::detail
