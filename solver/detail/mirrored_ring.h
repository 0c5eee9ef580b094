// SPDX-License-Identifier: GPL-3.0-or-later
// A body of N equal sectors, each its own mirror image: half a sector factored, the rest a small
// real problem for each circumferential harmonic.
#pragma once
#include <memory>
#include <vector>

#include "solver/detail/load_images.h"
#include "solver/detail/partial_cholesky.h"

namespace felloe::detail {

/// One wedge's matrix, free on both planes, in coordinates that turn and mirror with the wedge:
/// radial, hoop and axial components whose hoop direction points from the cut to the mirror plane
/// in every wedge.
struct WedgeMatrix {
  SymmetricMatrix matrix;
  std::vector<int> group;            ///< see SparseCholesky
  std::vector<long> position;        ///< see PartialCholesky
  std::vector<long> cut;             ///< unknowns on the plane that ends the sector
  std::vector<bool> cut_is_hoop;     ///< of each: it points across the plane
  std::vector<long> across, within;  ///< unknowns on the mirror plane: across it, within it
  /// Six unknowns ux uy uz rx ry rz of the rigid adapter, x along the mirror plane; or none.
  std::vector<long> adapter;
  int n_sectors = 0;  ///< at least 1
};

/// Solutions of all loads; those that are images of one another are stored once.
struct RingSolutions {
  long n = 0;  ///< unknowns of a wedge
  int n_wedges = 0;
  RawVector<double> x;            ///< [original][wedge][unknown]
  std::vector<LoadImage> images;  ///< of each load, with originals counted among themselves

  const double *at(int load, int wedge) const {
    return x.data() + n * (1L * n_wedges * images[load].original + images[load].wedge[wedge]);
  }
};

/// Exact solution of the whole ring.
///
/// In each sector the even part s = (u_A + u_B) / sqrt 2 and the odd part a = (u_A - u_B) / sqrt 2
/// of its two wedges see half a sector each, held across the mirror plane (even) or within it
/// (odd); their interiors are eliminated up to the cut, which leaves S+ and S-. Sectors hang
/// together by the cut x_k of A: u_B(k) = J x_(k+1), J = -1 for hoop components. With x_k a Fourier
/// series of angle t = 2 pi h / N and the substitution x = exp(-i t / 2) (Y, i Y_hoop) every
/// harmonic is one real system 2 (C S+ C + D S- D), C = cos(t / 2) and D = sin(t / 2) for
/// components along the cut, C = sin(t / 2) and D = -cos(t / 2) for hoop components. Harmonic 0
/// falls apart into its even and its odd part. Own derivation; the group is the dihedral one (J.-P.
/// Serre, Linear Representations of Finite Groups, 1977, section 5.3).
///
/// Loads that are turned or mirrored images of one another are solved once, unless the adapter is
/// free. Only what the loads need is factored, when it is first needed: a load that is equal in all
/// sectors and even takes one half and one harmonic.
class MirroredRing {
 public:
  explicit MirroredRing(WedgeMatrix);
  ~MirroredRing();

  /// @param right_hand_sides  each [wedge][unknown], wedge 2 k: sector k before its mirror plane,
  ///                          2 k + 1: behind it. Forces on a plane are shared: what the two
  ///                          wedges at it say adds up. So do those on the adapter, each in the
  ///                          frame of its wedge
  /// @return                  the adapter's motions in wedge 0
  /// Throws NotPositiveDefinite when the ring can move freely.
  RingSolutions solve(const std::vector<SparseVector> &right_hand_sides);

  double entries() const;         ///< stored numbers of all factors made so far
  double factor_seconds() const;  ///< wall time spent on them

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace felloe::detail
