// SPDX-License-Identifier: GPL-3.0-or-later
// Dense symmetric matrices of which only the lower triangle is stored, two in one square.
#pragma once
#include <memory>

namespace felloe::detail {

/// Lower triangle of a symmetric matrix, columns one after the other: entry (i, j), i >= j, lies at
/// origin[step (i + j leading)]. With step -1 it runs backwards through the memory.
struct DenseTriangle {
  double *origin = nullptr;
  long leading = 0;
  int step = 1;

  /// Where column j begins as if it had all rows; row i follows at step i.
  double *column(long j) const { return origin + step * j * leading; }
  double &at(long i, long j) const { return column(j)[step * i]; }
};

/// Cholesky factor of the leading n rows and columns in place. Throws NotPositiveDefinite.
void factor(const DenseTriangle &, int n);
/// Solves for n_columns right-hand sides, n x n_columns, with the factor of n rows.
void solve(const DenseTriangle &factor, int n, double *x, int n_columns);

/// Memory for two triangles of n rows: what is first touched costs time.
class TrianglePair {
 public:
  TrianglePair() = default;
  explicit TrianglePair(long n) : n_(n), numbers_(new double[n * (n + 1)]) {}  // not set
  explicit operator bool() const { return numbers_ != nullptr; }
  DenseTriangle first() const { return {numbers_.get() + 1, n_ + 1, 1}; }
  DenseTriangle second() const { return {numbers_.get() + (n_ - 1) * (n_ + 2), n_ + 1, -1}; }

 private:
  long n_ = 0;
  std::unique_ptr<double[]> numbers_;
};

}  // namespace felloe::detail
