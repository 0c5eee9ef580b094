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

/// Planes of the half sphere, 1 degree apart.
inline const std::vector<Vec3> &all_planes() {
  static const std::vector<Vec3> planes = [] {
    constexpr double degree = pi / 180;
    std::vector<Vec3> all;
    for (int i = 0; i <= 90; ++i) {
      const double r = std::sin(i * degree), z = std::cos(i * degree);
      const int round = std::max(1, static_cast<int>(std::ceil(360 * r)));
      for (int j = 0; j < round; ++j)
        all.push_back({r * std::cos(2 * pi * j / round), r * std::sin(2 * pi * j / round), z});
    }
    return all;
  }();
  return planes;
}

/// Goes uphill from a plane in eight directions, turned after every failure (tops may be ridges).
inline double climbed(const HarmonicHistory &h, Vec3 n, double value, double k, bool limited) {
  double step = 0.5 * pi / 180, turn = 0;
  for (int round = 0; round < 2000 && step > 2e-7; ++round) {
    const Vec3 other = std::fabs(n[2]) < 0.7 ? Vec3{0, 0, 1} : Vec3{1, 0, 0};
    Vec3 u = cross(other, n);
    u = scale(1 / norm(u), u);
    const Vec3 v = cross(n, u);
    Vec3 best_n = n;
    double best = value;
    for (int i = 0; i < 8; ++i) {
      const double a = turn + i * pi / 4;
      Vec3 trial = add(n, add(scale(step * std::cos(a), u), scale(step * std::sin(a), v)));
      trial = scale(1 / norm(trial), trial);
      const double there = findley_on(h, trial, k, limited);
      if (there > best) best = there, best_n = trial;
    }
    if (best > value * (1 + 1e-15))
      n = best_n, value = best, step *= 1.3;
    else
      step *= 0.6, turn += 0.618;
  }
  return value;
}

/// Largest value over planes 1 degree apart, up to thirty of the best of them, 3 degrees apart,
/// followed uphill; not below zero.
inline double findley_of_all_planes(const HarmonicHistory &h, double k, bool limited) {
  const std::vector<Vec3> &planes = all_planes();
  std::vector<double> values;
  for (const Vec3 &n : planes) values.push_back(findley_on(h, n, k, limited));
  const double top = *std::max_element(values.begin(), values.end());
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < values.size(); ++i)
    if (values[i] > top - 2e-3 * std::fabs(top)) order.push_back(i);
  std::sort(order.begin(), order.end(),
            [&](std::size_t a, std::size_t b) { return values[a] > values[b]; });
  std::vector<Vec3> starts;
  double best = std::max(0.0, top);
  for (const std::size_t i : order) {
    const Vec3 &n = planes[i];
    if (std::any_of(starts.begin(), starts.end(),
                    [&](const Vec3 &s) { return std::fabs(dot(s, n)) > 0.9985; }))
      continue;
    if (starts.size() == 30) break;
    starts.push_back(n);
    best = std::max(best, climbed(h, n, values[i], k, limited));
  }
  return best;
}

}  // namespace felloe::bench
