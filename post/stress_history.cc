// SPDX-License-Identifier: GPL-3.0-or-later
// Evaluation of a one-harmonic history.
#include "post/stress_history.h"

#include <cassert>
#include <cmath>

namespace felloe {

Stress HarmonicHistory::at(double phi) const {
  return mean + std::cos(phi) * cosine + std::sin(phi) * sine;
}

SampledHistory sampled(const HarmonicHistory &history, int states) {
  assert(states > 0);
  SampledHistory result;
  result.states.reserve(states);
  for (int i = 0; i < states; ++i) result.states.push_back(history.at(2 * pi * i / states));
  return result;
}

}  // namespace felloe
