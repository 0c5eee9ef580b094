// SPDX-License-Identifier: GPL-3.0-or-later
// Smallest ball round a set of points: circle round a shear path (D = 2), hypersphere round a
// deviator path (D = 5).
#pragma once
#include <algorithm>
#include <array>
#include <cmath>
#include <utility>
#include <vector>

namespace felloe {

template <int D>
using Point = std::array<double, D>;

template <int D>
struct Ball {
  Point<D> centre{};
  double squared_radius = 0;
  double radius() const { return std::sqrt(squared_radius); }
};

template <int D>
double squared_distance(const Point<D> &a, const Point<D> &b) {
  double sum = 0;
  for (int i = 0; i < D; ++i) sum += (a[i] - b[i]) * (a[i] - b[i]);
  return sum;
}

/// Smallest ball with all n points (1 <= n <= D + 1) on its surface; false when they are affinely
/// dependent. Centre p0 + sum l_j (p_j - p0) with the Gram system 2 G l = diag G.
template <int D>
bool circumscribe(const Point<D> *points, int n, Ball<D> &ball) {
  const int m = n - 1;
  double a[D][D + 1];
  Point<D> edge[D];
  for (int i = 0; i < m; ++i)
    for (int k = 0; k < D; ++k) edge[i][k] = points[i + 1][k] - points[0][k];
  double scale = 0;
  for (int i = 0; i < m; ++i) {
    for (int j = 0; j < m; ++j) {
      a[i][j] = 0;
      for (int k = 0; k < D; ++k) a[i][j] += 2 * edge[i][k] * edge[j][k];
    }
    a[i][m] = a[i][i] / 2;
    scale = std::max(scale, a[i][i]);
  }
  for (int i = 0; i < m; ++i) {
    int pivot = i;
    for (int r = i + 1; r < m; ++r)
      if (std::abs(a[r][i]) > std::abs(a[pivot][i])) pivot = r;
    if (std::abs(a[pivot][i]) <= 1e-12 * scale) return false;
    if (pivot != i) std::swap(a[pivot], a[i]);
    for (int r = 0; r < m; ++r) {
      if (r == i) continue;
      const double f = a[r][i] / a[i][i];
      for (int c = i; c <= m; ++c) a[r][c] -= f * a[i][c];
    }
  }
  ball.centre = points[0];
  for (int i = 0; i < m; ++i)
    for (int k = 0; k < D; ++k) ball.centre[k] += a[i][m] / a[i][i] * edge[i][k];
  ball.squared_radius = squared_distance<D>(points[0], ball.centre);
  return true;
}

/// The smallest ball round all points, to 1e-10 of the squared radius. The ball of a small support
/// set grows until it holds everything: the farthest point joins the support, and the new support
/// is the subset with that point whose ball holds the others and is smallest.
template <int D>
Ball<D> smallest_ball(const std::vector<Point<D>> &points) {
  Ball<D> ball;
  if (points.empty()) return ball;
  constexpr double slack = 1 + 1e-10;
  std::array<Point<D>, D + 2> support;
  int n_support = 1;
  support[0] = ball.centre = points[0];
  for (int round = 0; round < 200; ++round) {
    const Point<D> *farthest = nullptr;
    double distance = ball.squared_radius * slack;
    for (const auto &p : points) {
      const double d = squared_distance<D>(p, ball.centre);
      if (d > distance) distance = d, farthest = &p;
    }
    if (!farthest) return ball;
    support[n_support] = *farthest;
    Ball<D> best;
    unsigned best_set = 0;
    for (unsigned set = 0; set < (1u << n_support); ++set) {
      Point<D> chosen[D + 2] = {*farthest};
      int n = 1;
      for (int i = 0; i < n_support; ++i)
        if (set >> i & 1u) chosen[n++] = support[i];
      Ball<D> trial;
      if (n > D + 1 || !circumscribe<D>(chosen, n, trial)) continue;
      if (best_set && trial.squared_radius >= best.squared_radius) continue;
      bool holds = true;
      for (int i = 0; i < n_support && holds; ++i)
        holds = squared_distance<D>(support[i], trial.centre) <= trial.squared_radius * slack;
      if (holds) best = trial, best_set = set;
    }
    // No growth left within rounding: the present centre with the farthest point's distance.
    if (!best_set || best.squared_radius <= ball.squared_radius) {
      ball.squared_radius = distance;
      return ball;
    }
    std::array<Point<D>, D + 2> kept;
    int n = 0;
    for (int i = 0; i < n_support; ++i)
      if (best_set >> i & 1u) kept[n++] = support[i];
    kept[n++] = *farthest;
    support = kept;
    n_support = n;
    ball = best;
  }
  return ball;
}

}  // namespace felloe
