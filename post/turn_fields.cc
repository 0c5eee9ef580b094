// SPDX-License-Identifier: GPL-3.0-or-later
#include "post/turn_fields.h"

#include <cmath>

#include "solver/parallel.h"

namespace felloe {
namespace {

Vec3 at(const HarmonicMotion &m, double phi) {
  return add(m.mean, add(scale(std::cos(phi), m.cosine), scale(std::sin(phi), m.sine)));
}

/// Of how many states every which one is taken.
struct Stride {
  int n_states, every, n_steps;

  Stride(const TurnHistory &turn, int most)
      : n_states(turn.harmonic ? most : turn.n_states),
        every((n_states + most - 1) / most),
        n_steps((n_states + every - 1) / every) {}
  double angle_deg(int step) const { return 360.0 * step * every / n_states; }
};

}  // namespace

TurnFields turn_fields(const TurnHistory &turn, std::vector<int> nodes, int most_steps) {
  const Stride stride(turn, most_steps);
  const bool moves = turn.harmonic_motion || turn.sampled_motion;
  TurnFields fields{turn.test, std::move(nodes), std::vector<TurnStep>(stride.n_steps)};
  const int n = static_cast<int>(fields.nodes.size());
  for (int k = 0; k < stride.n_steps; ++k) {
    TurnStep &step = fields.steps[k];
    step.angle_deg = stride.angle_deg(k);
    step.stress.resize(6 * static_cast<std::size_t>(n));
    if (moves) step.displacement.resize(3 * static_cast<std::size_t>(n));
  }
  parallel_for(0, n, [&](int i) {
    const int node = fields.nodes[i];
    const auto keep = [&](int k, const Stress &stress, const Vec3 &motion) {
      TurnStep &step = fields.steps[k];
      for (int c = 0; c < 6; ++c)
        step.stress[6 * static_cast<std::size_t>(i) + c] = float(stress[c]);
      for (int c = 0; c < 3 && moves; ++c)
        step.displacement[3 * static_cast<std::size_t>(i) + c] = float(motion[c]);
    };
    if (turn.harmonic) {
      const HarmonicHistory history = turn.harmonic(node);
      const HarmonicMotion motion = moves ? turn.harmonic_motion(node) : HarmonicMotion{};
      for (int k = 0; k < stride.n_steps; ++k) {
        const double phi = stride.angle_deg(k) * pi / 180;
        keep(k, history.at(phi), at(motion, phi));
      }
    } else {
      const SampledHistory history = turn.sampled(node);
      for (int k = 0; k < stride.n_steps; ++k) {
        const int state = k * stride.every;
        keep(k, history.states[state], moves ? turn.sampled_motion(node, state) : Vec3{});
      }
    }
  });
  return fields;
}

std::vector<Vec3> motion_at(const TurnHistory &turn, int n_nodes, double angle_deg) {
  std::vector<Vec3> motion;
  if (!turn.harmonic_motion && !turn.sampled_motion) return motion;
  motion.resize(n_nodes);
  const double share = std::fmod(std::fmod(angle_deg, 360) + 360, 360) / 360;
  const int state =
      turn.n_states > 0 ? static_cast<int>(std::lround(share * turn.n_states)) % turn.n_states : 0;
  for (int n = 0; n < n_nodes; ++n)
    motion[n] = turn.harmonic_motion ? at(turn.harmonic_motion(n), 2 * pi * share)
                                     : turn.sampled_motion(n, state);
  return motion;
}

}  // namespace felloe
