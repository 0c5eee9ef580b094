// SPDX-License-Identifier: GPL-3.0-or-later
// Coulomb friction on the tableau: Newton steps between projections.
#include <algorithm>
#include <cmath>
#include <string>

#include "mesher/error.h"
#include "solver/detail/contact_tableau.h"

namespace felloe::detail {
namespace {

/// Of forces against their projection, relative to the largest force. Rounding of a condensed
/// stiffness lies two orders below.
constexpr double tolerance = 1e-9;
constexpr int most_steps = 150;

double elastic_force(const CondensedState &s, const std::vector<BoltLaw> &laws, int bolt) {
  const BoltLaw &law = laws[bolt];
  return law.preload + law.stiffness * (s.elongation[bolt] - law.reference);
}

/// Sum of squares of what the laws of contact, friction and bolts find wrong [N2].
double merit(const CondensedBody &b, const std::vector<BoltLaw> &laws, const CoulombFriction &f,
             const CondensedState &s) {
  double sum = 0;
  const auto add = [&](double wrong) { sum += wrong * wrong; };
  for (int i = 0; i < b.n_nodes; ++i) {
    const ProjectedForces wanted = projected(b, s, f, i);
    add(-b.side * s.force[b.normal(i)] - wanted.pressing);
    if (s.set.sticks[i] && b.first[i] < b.normal(i))
      for (int x = 0; x < 2; ++x) add(s.force[b.first[i] + x] - wanted.across[x]);
  }
  for (int k = 0; k < b.n_bolts(); ++k)
    if (laws[k].stiffness > 0) add(s.bolt_force[k] - std::max(0.0, elastic_force(s, laws, k)));
  return sum;
}

/// from + share (to - from): both solve all that is linear, so that this does too.
CondensedState between(const CondensedState &from, const CondensedState &to, double share) {
  CondensedState s = from;
  const auto mix = [&](auto &at, const auto &end) {
    for (std::size_t i = 0; i < at.size(); ++i) at[i] += share * (end[i] - at[i]);
  };
  mix(s.relative, to.relative);
  mix(s.force, to.force);
  mix(s.motion, to.motion);
  mix(s.bolt_force, to.bolt_force);
  mix(s.elongation, to.elongation);
  return s;
}

/// Half of what slips, the nodes nearest to sticking, sticks instead; false when little slips.
bool hold_half(const CondensedBody &b, const CondensedState &s, const CoulombFriction &f,
               std::vector<bool> &slips) {
  std::vector<std::pair<double, int>> overrun;
  for (int i = 0; i < b.n_nodes; ++i) {
    if (!slips[i]) continue;
    const ProjectedForces p = projected(b, s, f, i);
    overrun.emplace_back(std::hypot(p.trial_across[0], p.trial_across[1]) / (p.bound + 1e-300), i);
  }
  std::sort(overrun.begin(), overrun.end());
  for (std::size_t k = 0; k < (overrun.size() + 1) / 2; ++k) slips[overrun[k].second] = false;
  return !overrun.empty();
}

}  // namespace

/// sides() with open nodes free across, and for nodes that slip the law
/// t - coefficient p D - k (1 - D D^T) (t - r slip) = 0, its bound and direction D linear about the
/// latest state; k = bound / length of the latest trial.
std::vector<ContactTableau::Condition> ContactTableau::sides_and_slips(
    const Question &q, const CoulombFriction &f, const CondensedState &latest,
    const ContactSet &set) const {
  ContactSet held = set;
  for (int i = 0; i < b_.n_nodes; ++i) held.sticks[i] = set.sticks[i] && set.closed[i];
  std::vector<Condition> all;
  for (const Condition &c : sides(q, held))
    if (!set.slips[node_[c.component]] || c.component == b_.normal(node_[c.component]))
      all.push_back(c);
  for (int i = 0; i < b_.n_nodes; ++i) {
    if (!set.slips[i]) continue;
    const ProjectedForces p = projected(b_, latest, f, i);
    const double size = std::hypot(p.trial_across[0], p.trial_across[1]);
    const double turns = std::min(1.0, p.bound / size);  // k
    const int first = b_.first[i];
    const std::array<double, 2> D{p.trial_across[0] / size, p.trial_across[1] / size};
    for (int x = 0; x < 2; ++x) {
      Condition slip;
      slip.component = first + x;
      slip.force[2] = b_.side * f.coefficient * D[x];
      for (int y = 0; y < 2; ++y) {
        const double across = turns * ((x == y) - D[x] * D[y]), r = f.stiffness[first + y];
        slip.force[y] = (x == y) - across;
        slip.motion[y] = across * r;
        slip.value += across * r * f.reference[first + y];
      }
      all.push_back(slip);
    }
  }
  return all;
}

CondensedState ContactTableau::rubbed(const CondensedLoad &load, const std::vector<BoltLaw> &laws,
                                      ContactSet start, const CoulombFriction &friction) const {
  CoulombFriction f = friction;
  std::vector<double> held_motion = gaps();
  f.stiffness.assign(n_, 0.0);
  for (int i = 0; i < b_.n_nodes; ++i)
    for (int c = b_.first[i]; c < b_.first[i + 1]; ++c) {
      const double entry = table_[static_cast<std::size_t>(c) * n_ + c];
      f.stiffness[c] = held_[c] ? entry : 1 / entry;
      if (c < b_.normal(i)) held_motion[c] = f.reference[c];
    }
  even_out_across(b_, f);
  const Question q = question(load, laws, std::move(held_motion));
  CondensedState s;
  s.set = std::move(start);
  s.set.slips.assign(b_.n_nodes, false);
  s.bolt_force.assign(b_.n_bolts(), 0.0);
  s.elongation.assign(b_.n_bolts(), 0.0);
  s.n_solves = 1;
  if (!solve(q, sides_and_slips(q, f, s, s.set), s)) {
    s.set.closed.assign(b_.n_nodes, true);
    s.set.taut.assign(b_.n_bolts(), true);
    if (!solve(q, sides_and_slips(q, f, s, s.set), s))
      throw Error("contact: too few nodes of the face touch to hold the body; check the preload");
  }
  for (double wrong = merit(b_, laws, f, s); s.n_solves < most_steps;) {
    ContactSet set = s.set;
    for (int i = 0; i < b_.n_nodes; ++i) {
      const ProjectedForces p = projected(b_, s, f, i);
      set.closed[i] = p.closed;
      set.slips[i] = p.slips;
    }
    for (int k = 0; k < b_.n_bolts(); ++k)
      set.taut[k] = laws[k].stiffness == 0 || elastic_force(s, laws, k) > 0;
    double largest = 0;
    for (const double force : s.force) largest = std::max(largest, std::abs(force));
    if (wrong <= tolerance * tolerance * largest * largest) {
      s.set = set;
      return s;
    }
    CondensedState next = s;
    next.set = set;
    while (!solve(q, sides_and_slips(q, f, s, next.set), next)) {
      ++s.n_solves;
      if (s.n_solves >= most_steps || !hold_half(b_, s, f, next.set.slips))
        throw Error(
            "contact: the face slides as a whole, or lifts off: friction with coefficient " +
            std::to_string(f.coefficient).substr(0, 5) +
            " does not carry the load; raise the preload or the coefficient, or lower the load");
    }
    CondensedState best = between(s, next, 1);
    double least = merit(b_, laws, f, best);
    for (double share = 0.5; share > 0.05 && least > 0.5 * wrong; share *= 0.5) {
      const CondensedState shorter = between(s, next, share);
      const double sum = merit(b_, laws, f, shorter);
      if (sum >= least) continue;
      least = sum;
      best = shorter;
    }
    best.n_solves = s.n_solves + 1;
    s = std::move(best);
    wrong = least;
  }
  throw Error("contact: friction with coefficient " + std::to_string(f.coefficient).substr(0, 5) +
              " finds no balance in " + std::to_string(most_steps) +
              " steps: the face is about to slide as a whole, or the state is unstable; check the "
              "preload, the load and the coefficient");
}

}  // namespace felloe::detail
