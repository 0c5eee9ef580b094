// SPDX-License-Identifier: GPL-3.0-or-later
// What loads on a mirrored ring consist of: harmonics and parities.
#pragma once
#include <algorithm>
#include <cstddef>
#include <vector>

#include "solver/detail/ring_system.h"

namespace felloe::detail {

/// What a set of loads calls for.
struct RingContent {
  bool part[2] = {false, false};  ///< even and odd part of harmonic 0
  std::vector<bool> harmonic;     ///< from 1 on; entry 0 unused
  bool any_harmonic() const {
    return std::any_of(harmonic.begin(), harmonic.end(), [](bool b) { return b; });
  }
  bool uses(Parity p) const { return part[p] || any_harmonic(); }
};

/// Which harmonics and parities the loads contain.
/// @param loads  each [wedge][unknown], see MirroredRing::solve()
/// @param scale  size of the largest load so far, to be raised; what is 1e-12 of it is rounding
RingContent ring_content(const WedgeMatrix &, const std::vector<const SparseVector *> &loads,
                         double &scale);

/// Calls visit(unknown, values in all wedges) for every unknown that a load has entries for,
/// ascending.
template <class F>
void by_unknown(const SparseVector &load, long n, int n_wedges, F &&visit) {
  const std::vector<std::size_t> begins = part_begins(load, n, n_wedges);
  std::vector<std::size_t> at(begins.begin(), begins.end() - 1);
  std::vector<double> values(n_wedges);
  for (;;) {
    long unknown = n;  // the next one
    for (int w = 0; w < n_wedges; ++w)
      if (at[w] < begins[w + 1]) unknown = std::min(unknown, load.at[at[w]] - w * n);
    if (unknown == n) return;
    for (int w = 0; w < n_wedges; ++w) {
      const bool has = at[w] < begins[w + 1] && load.at[at[w]] - w * n == unknown;
      values[w] = has ? load.value[at[w]++] : 0;
    }
    visit(unknown, values);
  }
}

}  // namespace felloe::detail
