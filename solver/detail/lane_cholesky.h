// SPDX-License-Identifier: GPL-3.0-or-later
// Cholesky factors of eight matrices with the same pattern at once, one in each SIMD lane.
#pragma once
#include <cstddef>
#include <vector>

#include "solver/detail/lane_plan.h"

namespace felloe::detail {

constexpr int n_lanes_of_factor = 8;
/// One number of each matrix. (An alias of GCC and Clang; plain SIMD operations.)
typedef double Lanes __attribute__((vector_size(64)));

/// Memory for them.
class LaneArray {
 public:
  explicit LaneArray(std::size_t n = 0) : boxes_(n, Box{}) {}
  std::size_t size() const { return boxes_.size(); }
  Lanes *data() { return &boxes_.data()->lanes; }
  const Lanes *data() const { return &boxes_.data()->lanes; }
  Lanes &operator[](std::size_t i) { return boxes_[i].lanes; }
  const Lanes &operator[](std::size_t i) const { return boxes_[i].lanes; }

 private:
  struct Box {
    Lanes lanes;
  };
  std::vector<Box> boxes_;
};

class LaneCholesky {
 public:
  explicit LaneCholesky(LanePlan);
  /// Numbers of the matrices, zero at first: add at plan().entry(row, column), then factor().
  Lanes *values() { return values_.data(); }
  const LanePlan &plan() const { return plan_; }
  /// Throws NotPositiveDefinite when a pivot is below 1e-14 of its diagonal entry.
  void factor();
  /// Solves in place; x by position.
  void solve(Lanes *x) const;

 private:
  LanePlan plan_;
  LaneArray values_;
};

}  // namespace felloe::detail
