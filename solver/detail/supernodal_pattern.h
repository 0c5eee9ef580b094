// SPDX-License-Identifier: GPL-3.0-or-later
// Symbolic phase: which numbers a supernodal Cholesky factor holds.
#pragma once
#include <vector>

#include "solver/detail/sparse_cholesky.h"

namespace felloe::detail {

/// Supernodes in an order that ends with the border, which is the last supernode, dense, even when
/// it is empty.
struct SupernodalPattern {
  std::vector<long> unknown;       ///< at each place of the order
  std::vector<int> first_column;   ///< of each supernode, and the end
  std::vector<long> rows_begin;    ///< of each supernode in `rows`, and the end
  std::vector<int> rows;           ///< places, ascending; the first ones are the columns themselves
  std::vector<long> values_begin;  ///< of each supernode in the numbers, rows x columns; and the
                                   ///< end, which leaves the border's own out

  int n_supernodes() const { return static_cast<int>(first_column.size()) - 1; }
  int border() const { return n_supernodes() - 1; }
};

/// The symbolic elimination runs on groups of unknowns, each taken as a dense block, so that it
/// costs little beside that of single unknowns. Elimination tree: J. W. H. Liu, The role of
/// elimination trees in sparse factorization, 1990; relaxed supernodes: C. Ashcraft and R. Grimes,
/// The influence of relaxed supernode partitions on the multifrontal method, 1989 (both from
/// memory).
///
/// @param interior  unknowns in a good order of elimination; the order changes among equivalent
/// ones
/// @param border    unknowns that stay, in the order that is wanted; unknowns in neither of the two
///                  are absent, as if their rows and columns were not there
/// @param group     of each unknown; neighbours in the order with equal group are one block. Empty:
///                  every unknown on its own
SupernodalPattern supernodal_pattern(const SymmetricMatrix &, const std::vector<long> &interior,
                                     const std::vector<long> &border,
                                     const std::vector<int> &group);

}  // namespace felloe::detail
