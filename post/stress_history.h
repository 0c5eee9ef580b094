// SPDX-License-Identifier: GPL-3.0-or-later
// What a material point feels during one turn of the wheel.
#pragma once
#include <vector>

#include "solver/stress.h"

namespace felloe {

/// One-harmonic history: sigma(phi) = mean + cosine cos(phi) + sine sin(phi), phi = turn angle.
/// Exact for a constant moment or force that turns against the wheel.
struct HarmonicHistory {
  Stress mean, cosine, sine;
  Stress at(double phi) const;
};

/// A cycle given state by state (radial load: one state a load position).
struct SampledHistory {
  std::vector<Stress> states;
};

SampledHistory sampled(const HarmonicHistory &, int states);

}  // namespace felloe
