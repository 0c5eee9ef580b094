// SPDX-License-Identifier: GPL-3.0-or-later
// Small dense symmetric matrices.
#pragma once
#include <cmath>
#include <vector>

namespace felloe::detail {

/// Replaces the symmetric positive definite n x n matrix by its inverse (Cholesky); false when a
/// pivot is not positive.
inline bool invert(double *a, int n) {
  for (int j = 0; j < n; ++j) {
    double pivot = a[j * n + j];
    for (int k = 0; k < j; ++k) pivot -= a[j * n + k] * a[j * n + k];
    if (!(pivot > 0)) return false;
    a[j * n + j] = std::sqrt(pivot);
    for (int i = j + 1; i < n; ++i) {
      double sum = a[i * n + j];
      for (int k = 0; k < j; ++k) sum -= a[i * n + k] * a[j * n + k];
      a[i * n + j] = sum / a[j * n + j];
    }
  }
  std::vector<double> l(static_cast<std::size_t>(n) * n, 0.0);  // inverse of the factor
  for (int j = 0; j < n; ++j)
    for (int i = j; i < n; ++i) {
      double sum = i == j ? 1 : 0;
      for (int k = j; k < i; ++k) sum -= a[i * n + k] * l[k * n + j];
      l[i * n + j] = sum / a[i * n + i];
    }
  for (int i = 0; i < n; ++i)
    for (int j = 0; j <= i; ++j) {
      double sum = 0;
      for (int k = i; k < n; ++k) sum += l[k * n + i] * l[k * n + j];
      a[i * n + j] = a[j * n + i] = sum;
    }
  return true;
}

}  // namespace felloe::detail
