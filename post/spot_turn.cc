// SPDX-License-Identifier: GPL-3.0-or-later
#include "post/spot_turn.h"

#include "post/weld_extrapolation.h"

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
  static const std::vector<double> weight = toe_weights({0.4, 1.0});
  const SampledHistory near = states_at(turn, toe.near_node), far = states_at(turn, toe.far_node);
  std::vector<double> felt;
  for (std::size_t i = 0; i < near.states.size(); ++i)
    felt.push_back(weight[0] * normal_stress(near.states[i], toe.across) +
                   weight[1] * normal_stress(far.states[i], toe.across));
  return felt;
}

}  // namespace felloe
