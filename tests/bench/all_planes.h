// SPDX-License-Identifier: GPL-3.0-or-later
// Findley's value by trying all planes: the slow way that the quick search is compared with.
#pragma once
#include <algorithm>
#include <cmath>
#include <vector>

#include "post/stress_history.h"

namespace felloe::bench {

/// tau_a + k sigma_max on one plane of a one-harmonic history, from the definitions.
/// @param limited  the static normal stress counts up to three times the larger amplitude
inline double findley_on(const HarmonicHistory &h, const Vec3 &n, double k, bool limited) {
  const Vec3 other = std::fabs(n[2]) < 0.7 ? Vec3{0, 0, 1} : Vec3{1, 0, 0};
  Vec3 u = cross(other, n);
  u = scale(1 / norm(u), u);
  const Vec3 v = cross(n, u);
  const Vec3 c = traction(h.cosine, n), s = traction(h.sine, n);
  const double a = dot(c, u), b = dot(s, u), d = dot(c, v), e = dot(s, v);
  const double trace = a * a + b * b + d * d + e * e, determinant = a * e - b * d;
  const double root = std::sqrt(std::max(0.0, trace * trace - 4 * determinant * determinant));
  const double shear = std::sqrt(0.5 * (trace + root));
  const double normal = std::hypot(dot(c, n), dot(s, n));
  double mean = normal_stress(h.mean, n);
  if (limited) mean = std::min(mean, 3 * std::max(shear, normal));
  return shear + k * (mean + normal);
}

/// Largest value over planes 1 degree apart, the best few of them followed uphill in steps down to
/// 0.005 degrees; not below zero.
inline double findley_of_all_planes(const HarmonicHistory &h, double k, bool limited) {
  constexpr double degree = pi / 180;
  std::vector<std::pair<double, Vec3>> all;
  for (int i = 0; i <= 90; ++i) {
    const double r = std::sin(i * degree), z = std::cos(i * degree);
    const int round = std::max(1, static_cast<int>(std::ceil(360 * r)));
    for (int j = 0; j < round; ++j) {
      const double a = 2 * pi * j / round;
      const Vec3 n{r * std::cos(a), r * std::sin(a), z};
      all.emplace_back(findley_on(h, n, k, limited), n);
    }
  }
  constexpr std::size_t n_best = 40;
  std::partial_sort(all.begin(), all.begin() + n_best, all.end(),
                    [](const auto &a, const auto &b) { return a.first > b.first; });
  double best = std::max(0.0, all.front().first);
  for (std::size_t i = 0; i < n_best; ++i) {
    auto [value, n] = all[i];
    for (double step = 0.5 * degree; step > 0.004 * degree;) {
      bool better = false;
      for (int axis = 0; axis < 6; ++axis) {
        Vec3 trial = n;
        trial[axis / 2] += axis % 2 ? step : -step;
        trial = scale(1 / norm(trial), trial);
        const double there = findley_on(h, trial, k, limited);
        if (there > value) value = there, n = trial, better = true;
      }
      if (!better) step *= 0.5;
    }
    best = std::max(best, value);
  }
  return best;
}

}  // namespace felloe::bench
