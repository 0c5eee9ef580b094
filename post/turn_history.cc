// SPDX-License-Identifier: GPL-3.0-or-later
#include "post/turn_history.h"

#include <cmath>
#include <memory>
#include <numeric>

namespace felloe {
namespace {

Stress sum_at(const std::vector<const Solution *> &solutions, int node) {
  Stress total;
  for (const Solution *s : solutions) total = total + s->stress[node];
  return total;
}

Vec3 motion_at(const std::vector<const Solution *> &solutions, int node) {
  Vec3 total{};
  for (const Solution *s : solutions) total = add(total, s->displacement[node]);
  return total;
}

bool hold_displacements(const std::vector<const Solution *> &solutions) {
  for (const Solution *s : solutions)
    if (s->displacement.empty()) return false;
  return true;
}

/// Turns stresses about the wheel axis by one angle; see turned_about_axis().
class Turn {
 public:
  explicit Turn(double angle) : c_(std::cos(angle)), s_(std::sin(angle)) {}
  Stress operator()(const Stress &t) const {
    const double cc = c_ * c_, ss = s_ * s_, cs = c_ * s_;
    return {{cc * t[0] + ss * t[1] - 2 * cs * t[3], ss * t[0] + cc * t[1] + 2 * cs * t[3], t[2],
             cs * (t[0] - t[1]) + (cc - ss) * t[3], s_ * t[5] + c_ * t[4], c_ * t[5] - s_ * t[4]}};
  }
  Vec3 operator()(const Vec3 &u) const {
    return {c_ * u[0] - s_ * u[1], s_ * u[0] + c_ * u[1], u[2]};
  }

 private:
  double c_, s_;
};

}  // namespace

std::vector<std::vector<int>> backward_turns(const Mesh &mesh) {
  std::vector<int> identity(mesh.nodes.size());
  std::iota(identity.begin(), identity.end(), 0);
  std::vector<std::vector<int>> backward{identity};
  if (mesh.symmetry <= 1) return backward;
  std::vector<int> inverse(mesh.nodes.size());
  for (std::size_t i = 0; i < mesh.turned.size(); ++i)
    inverse[mesh.turned[i]] = static_cast<int>(i);
  for (int k = 1; k < mesh.symmetry; ++k) {
    std::vector<int> next(identity.size());
    for (std::size_t i = 0; i < next.size(); ++i) next[i] = inverse[backward.back()[i]];
    backward.push_back(std::move(next));
  }
  return backward;
}

std::vector<int> first_images(const Mesh &mesh) {
  std::vector<int> first(mesh.nodes.size(), -1);
  for (std::size_t i = 0; i < first.size(); ++i)
    for (int n = static_cast<int>(i); first[n] < 0; n = mesh.turned.empty() ? n : mesh.turned[n])
      first[n] = static_cast<int>(i);
  return first;
}

TurnHistory bending_turn(const std::string &test, std::vector<const Solution *> steady,
                         const Solution &cosine, const Solution &sine, double factor,
                         const std::vector<const Solution *> &before) {
  TurnHistory turn;
  turn.test = test;
  if (hold_displacements(steady) && hold_displacements({&cosine, &sine}))
    turn.harmonic_motion = [steady, &cosine, &sine, factor](int node) {
      return HarmonicMotion{motion_at(steady, node), scale(factor, cosine.displacement[node]),
                            scale(factor, sine.displacement[node])};
    };
  steady.insert(steady.end(), before.begin(), before.end());
  turn.harmonic = [steady = std::move(steady), &cosine, &sine, factor](int node) {
    return HarmonicHistory{sum_at(steady, node), factor * cosine.stress[node],
                           factor * sine.stress[node]};
  };
  return turn;
}

TurnHistory rolling_turn(const std::string &test, const Mesh &mesh,
                         std::vector<const Solution *> steady, std::vector<const Solution *> base,
                         double factor, const std::vector<const Solution *> &before) {
  const auto backward = std::make_shared<const std::vector<std::vector<int>>>(backward_turns(mesh));
  std::vector<Turn> turns;
  for (std::size_t k = 0; k < backward->size(); ++k)
    turns.emplace_back(2 * pi * static_cast<double>(k) / static_cast<double>(backward->size()));
  TurnHistory turn;
  turn.test = test;
  turn.n_states = static_cast<int>(backward->size() * base.size());
  if (hold_displacements(steady) && hold_displacements(base))
    turn.sampled_motion = [steady, base, backward, turns, factor](int node, int state) {
      const std::size_t k = static_cast<std::size_t>(state) / base.size();
      const Solution &load = *base[static_cast<std::size_t>(state) % base.size()];
      return add(motion_at(steady, node),
                 scale(factor, turns[k](load.displacement[(*backward)[k][node]])));
    };
  steady.insert(steady.end(), before.begin(), before.end());
  turn.sampled = [steady = std::move(steady), base = std::move(base), backward,
                  turns = std::move(turns), factor](int node) {
    SampledHistory history;
    history.states.reserve(backward->size() * base.size());
    const Stress mean = sum_at(steady, node);
    for (std::size_t k = 0; k < backward->size(); ++k) {
      const int source = (*backward)[k][node];
      for (const Solution *load : base)
        history.states.push_back(mean + factor * turns[k](load->stress[source]));
    }
    return history;
  };
  return turn;
}

}  // namespace felloe
