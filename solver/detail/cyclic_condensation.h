// SPDX-License-Identifier: GPL-3.0-or-later
// The stiffness of a ring of equal sectors on a few unknowns of each, everything else eliminated.
#pragma once
#include <vector>

#include "solver/detail/cyclic_system.h"

namespace felloe::detail {

/// Block-circulant: sector a feels sector b through block (a - b) mod N.
class CyclicStiffness {
 public:
  int n_sectors() const { return static_cast<int>(blocks_.size()); }
  int n() const { return n_; }  ///< kept unknowns of a sector
  /// Force on unknown i of sector a per motion of unknown j of sector b.
  double entry(int a, int i, int b, int j) const {
    const int apart = (a - b + n_sectors()) % n_sectors();
    return blocks_[apart][static_cast<std::size_t>(j) * n_ + i];
  }

 private:
  friend CyclicStiffness condensed_ring(const SectorMatrix &, const std::vector<long> &);
  int n_ = 0;
  std::vector<std::vector<double>> blocks_;
};

/// The kept unknowns join the cuts in the border of the sector's elimination; with the cuts coupled
/// as in CyclicSystem, each harmonic's cut unknowns are then eliminated densely, and the inverse
/// Fourier transform of what is left are the blocks. Positive definite or not: it is exact for a
/// body that the kept unknowns alone hold.
/// @param kept  unknowns of a sector, none on its right cut: those belong to the next sector
/// The sector has no adapter. Throws NotPositiveDefinite when something can move though the kept
/// unknowns are held.
CyclicStiffness condensed_ring(const SectorMatrix &, const std::vector<long> &kept);

}  // namespace felloe::detail
