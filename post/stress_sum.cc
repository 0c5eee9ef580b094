// SPDX-License-Identifier: GPL-3.0-or-later
#include "post/stress_sum.h"

#include <algorithm>
#include <cmath>

namespace felloe {

double product(const Stress &weight, const Stress &stress) {
  double sum = 0;
  for (int i = 0; i < 6; ++i) sum += weight[i] * stress[i];
  return sum;
}

Stress weight_of_normal_stress(const Vec3 &d, double factor) {
  return factor * Stress{{d[0] * d[0], d[1] * d[1], d[2] * d[2], 2 * d[0] * d[1], 2 * d[1] * d[2],
                          2 * d[2] * d[0]}};
}

void StressSum::add(int node, const Stress &weight) {
  const auto found = std::find(nodes.begin(), nodes.end(), node);
  if (found == nodes.end()) {
    nodes.push_back(node);
    weights.push_back(weight);
    return;
  }
  Stress &sum = weights[found - nodes.begin()];
  sum = sum + weight;
}

double StressSum::of(const std::vector<Stress> &nodal) const {
  double sum = 0;
  for (std::size_t i = 0; i < nodes.size(); ++i) sum += product(weights[i], nodal[nodes[i]]);
  return sum;
}

double FigureTurn::mean() const {
  if (harmonic || states.empty()) return steady;
  const auto [low, high] = std::minmax_element(states.begin(), states.end());
  return 0.5 * (*low + *high);
}

double FigureTurn::amplitude() const {
  if (harmonic) return std::hypot(cosine, sine);
  if (states.empty()) return 0;
  const auto [low, high] = std::minmax_element(states.begin(), states.end());
  return 0.5 * (*high - *low);
}

FigureTurn figure_turn(const StressSum &sum, const TurnHistory &turn) {
  FigureTurn f;
  f.harmonic = static_cast<bool>(turn.harmonic);
  for (std::size_t i = 0; i < sum.nodes.size(); ++i) {
    const Stress &weight = sum.weights[i];
    if (f.harmonic) {
      const HarmonicHistory h = turn.harmonic(sum.nodes[i]);
      f.steady += product(weight, h.mean);
      f.cosine += product(weight, h.cosine);
      f.sine += product(weight, h.sine);
      continue;
    }
    const SampledHistory h = turn.sampled(sum.nodes[i]);
    f.states.resize(h.states.size());
    for (std::size_t k = 0; k < h.states.size(); ++k) f.states[k] += product(weight, h.states[k]);
  }
  return f;
}

}  // namespace felloe
