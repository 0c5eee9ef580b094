// SPDX-License-Identifier: GPL-3.0-or-later
// Rank of a small symmetric positive semidefinite matrix.
#include "solver/detail/rank.h"

#include <utility>

namespace felloe::detail {

int rank_of_symmetric(std::vector<double> a, int n) {
  double largest = 0;
  for (int rank = 0; rank < n; ++rank) {
    int pivot = rank;
    for (int i = rank; i < n; ++i)
      if (a[i * n + i] > a[pivot * n + pivot]) pivot = i;
    for (int j = 0; j < n; ++j) std::swap(a[rank * n + j], a[pivot * n + j]);
    for (int i = 0; i < n; ++i) std::swap(a[i * n + rank], a[i * n + pivot]);
    const double diagonal = a[rank * n + rank];
    if (rank == 0) largest = diagonal;
    if (!(diagonal > 1e-10 * largest)) return rank;
    for (int i = rank + 1; i < n; ++i) {
      const double factor = a[i * n + rank] / diagonal;
      for (int j = rank; j < n; ++j) a[i * n + j] -= factor * a[rank * n + j];
    }
  }
  return n;
}

}  // namespace felloe::detail
