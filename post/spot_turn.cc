// SPDX-License-Identifier: GPL-3.0-or-later
#include "post/spot_turn.h"

#include <cmath>

namespace felloe {
namespace {

SampledHistory states_at(const TurnHistory &turn, int node) {
  return turn.harmonic ? sampled(turn.harmonic(node), turn_states) : turn.sampled(node);
}

}  // namespace

std::vector<double> normal_stress_turn(const TurnHistory &turn, int node,
                                       const FatigueConstants &constants) {
  const FatigueCriterion &normal = fatigue_criterion("normal stress plane");
  const Vec3 plane = turn.harmonic ? normal.harmonic(turn.harmonic(node), constants).plane_normal
                                   : normal.sampled(turn.sampled(node), constants).plane_normal;
  std::vector<double> felt;
  for (const Stress &s : states_at(turn, node).states) felt.push_back(normal_stress(s, plane));
  return felt;
}

std::vector<double> structural_stress_turn(const TurnHistory &turn, const ToePoint &toe) {
  const FigureTurn structural = figure_turn(toe, turn);
  if (!structural.harmonic) return structural.states;
  std::vector<double> felt;
  for (int k = 0; k < turn_states; ++k) {
    const double phi = 2 * pi * k / turn_states;
    felt.push_back(structural.steady + structural.cosine * std::cos(phi) +
                   structural.sine * std::sin(phi));
  }
  return felt;
}

}  // namespace felloe
