// SPDX-License-Identifier: GPL-3.0-or-later
// Largest value of a function of the turn angle.
#pragma once
#include <cmath>

#include "mesher/vec3.h"

namespace felloe {

/// Maximum of f over one turn: scan in steps of 2 degrees, then golden section round the best.
template <class Function>
double maximum_over_turn(const Function &f) {
  constexpr int n_steps = 180;
  const double step = 2 * pi / n_steps, golden = 0.5 * (std::sqrt(5.0) - 1);
  double best = f(0.0), at = 0;
  for (int i = 1; i < n_steps; ++i) {
    const double value = f(i * step);
    if (value > best) best = value, at = i * step;
  }
  double low = at - step, high = at + step;
  double a = high - golden * (high - low), b = low + golden * (high - low);
  double fa = f(a), fb = f(b);
  for (int i = 0; i < 30; ++i) {
    best = std::fmax(best, std::fmax(fa, fb));
    if (fa > fb) {
      high = b, b = a, fb = fa;
      a = high - golden * (high - low), fa = f(a);
    } else {
      low = a, a = b, fa = fb;
      b = low + golden * (high - low), fb = f(b);
    }
  }
  return best;
}

}  // namespace felloe
