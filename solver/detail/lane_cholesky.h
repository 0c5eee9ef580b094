// SPDX-License-Identifier: GPL-3.0-or-later
// Cholesky factors of eight matrices with the same pattern at once, one in each SIMD lane; or of
// one.
#pragma once
#include <cstddef>
#include <vector>

#include "solver/detail/lane_plan.h"

namespace felloe::detail {

constexpr int n_lanes_of_factor = 8;
/// One number of each matrix. (An alias of GCC and Clang; plain SIMD operations.)
typedef double Lanes __attribute__((vector_size(64)));

template <class T>
constexpr int n_lanes_of = 1;
template <>
constexpr int n_lanes_of<Lanes> = n_lanes_of_factor;

inline double &lane(double &x, std::size_t) { return x; }
inline double lane(const double &x, std::size_t) { return x; }
inline double &lane(Lanes &x, std::size_t l) { return reinterpret_cast<double *>(&x)[l]; }
inline double lane(const Lanes &x, std::size_t l) { return x[l]; }

/// Memory for numbers: T is Lanes or double.
template <class T>
class LaneArray {
 public:
  explicit LaneArray(std::size_t n = 0) : boxes_(n, Box{}) {}
  std::size_t size() const { return boxes_.size(); }
  T *data() { return &boxes_.data()->numbers; }
  const T *data() const { return &boxes_.data()->numbers; }
  T &operator[](std::size_t i) { return boxes_[i].numbers; }
  const T &operator[](std::size_t i) const { return boxes_[i].numbers; }

 private:
  struct Box {
    T numbers;
  };
  std::vector<Box> boxes_;
};

template <class T>
class LaneCholesky {
 public:
  explicit LaneCholesky(LanePlan);
  /// Numbers of the matrices, zero at first: add at plan().entry(row, column), then factor().
  T *values() { return values_.data(); }
  const LanePlan &plan() const { return plan_; }
  /// Throws NotPositiveDefinite when a pivot is below 1e-14 of its diagonal entry.
  void factor();
  /// Solves for several right-hand sides in place; x[position x n_sides + side].
  void solve(T *x, int n_sides) const;

 private:
  LanePlan plan_;
  LaneArray<T> values_;
};

}  // namespace felloe::detail
