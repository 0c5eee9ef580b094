// SPDX-License-Identifier: GPL-3.0-or-later
// Vectors of which few entries are not zero: forces on a surface of a large body.
#pragma once
#include <cstddef>
#include <utility>
#include <vector>

namespace felloe::detail {

/// The entries that are not zero, their places ascending.
struct SparseVector {
  std::vector<int> at;
  std::vector<double> value;

  std::size_t size() const { return at.size(); }
  void append(int place, double entry) {
    at.push_back(place);
    value.push_back(entry);
  }
};

SparseVector non_zeros(const double *dense, long n);
inline SparseVector non_zeros(const std::vector<double> &dense) {
  return non_zeros(dense.data(), static_cast<long>(dense.size()));
}

/// Entries in any order; those of equal places are added.
SparseVector summed(std::vector<std::pair<int, double>> entries);

/// Where the entries of each of several equal parts begin, and where the last ones end.
/// @param n  places of a part
std::vector<std::size_t> part_begins(const SparseVector &, long n, int n_parts);

/// dense += v.
void add_to(const SparseVector &v, double *dense);
/// Zeroes where v has entries.
void clear(const SparseVector &v, double *dense);

}  // namespace felloe::detail
