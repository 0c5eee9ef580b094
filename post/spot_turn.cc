// SPDX-License-Identifier: GPL-3.0-or-later
#include "post/spot_turn.h"

#include <cmath>

#include "post/stress_sum.h"
#include "solver/stress.h"

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
  const FigureTurn figure = figure_turn(toe, turn);
  if (!figure.harmonic) return figure.states;
  std::vector<double> felt;
  for (int i = 0; i < turn_states; ++i) {
    const double phi = 2 * pi * i / turn_states;
    felt.push_back(figure.steady + figure.cosine * std::cos(phi) + figure.sine * std::sin(phi));
  }
  return felt;
}

}  // namespace felloe
