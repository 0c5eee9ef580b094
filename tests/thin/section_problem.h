// SPDX-License-Identifier: GPL-3.0-or-later
// A disc of revolution about z = 0 whose thickness at stations is sought, for closed forms.
#pragma once
#include <algorithm>
#include <functional>
#include <vector>

#include "cli/thin/optimum.h"
#include "mesher/sheet.h"

namespace felloe::test {

/// Stations evenly spaced from r0 to r1; thickness linear between them.
inline ThicknessLaw law_of(double r0, double r1, const std::vector<double> &t) {
  std::vector<ThicknessStation> stations;
  for (std::size_t i = 0; i < t.size(); ++i)
    stations.push_back({r0 + (r1 - r0) * double(i) / double(t.size() - 1), t[i]});
  return ThicknessLaw(stations);
}

/// Integral of t r dr over [r0, r1]: mass over 2 pi times the density.
inline double section_moment(double r0, double r1, const ThicknessLaw &law) {
  constexpr int n = 2000;
  double sum = 0;
  for (int i = 0; i < n; ++i) {
    const double r = r0 + (r1 - r0) * (i + 0.5) / n;
    sum += law.at(r) * r;
  }
  return sum * (r1 - r0) / n;
}

/// The lightest law under limits <= 0 of the section; gradients by central differences of complete
/// solves, which cost milliseconds. The moment of the start has the size 1.
inline OptimumProblem lightest_section(
    double r0, double r1, const std::vector<double> &start, double low, double high,
    std::size_t n_limits, const std::function<std::vector<double>(const ThicknessLaw &)> &limits) {
  OptimumProblem p;
  for (const double t : start) p.variables.push_back({"thickness", t, low, high});
  p.n_limits = n_limits;
  const double unit = section_moment(r0, r1, law_of(r0, r1, start));
  p.evaluate = [=](const std::vector<double> &t, bool gradients) {
    Evaluation e;
    e.objective = section_moment(r0, r1, law_of(r0, r1, t)) / unit;
    e.limits = limits(law_of(r0, r1, t));
    if (!gradients) return e;
    e.limit_gradients.assign(n_limits, std::vector<double>(t.size()));
    for (std::size_t i = 0; i < t.size(); ++i) {
      const double h = 1e-3 * t[i];
      std::vector<double> more = t, less = t;
      more[i] += h;
      less[i] -= h;
      const ThicknessLaw up = law_of(r0, r1, more), down = law_of(r0, r1, less);
      e.gradient.push_back((section_moment(r0, r1, up) - section_moment(r0, r1, down)) / unit / 2 /
                           h);
      const std::vector<double> a = limits(up), b = limits(down);
      for (std::size_t k = 0; k < n_limits; ++k) e.limit_gradients[k][i] = (a[k] - b[k]) / 2 / h;
    }
    return e;
  };
  return p;
}

}  // namespace felloe::test
