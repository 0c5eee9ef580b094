// SPDX-License-Identifier: GPL-3.0-or-later
// States of the condensed contact: clamped, loaded, and changed without any node changing sides.
#include <algorithm>
#include <cassert>
#include <cmath>

#include "mesher/error.h"
#include "solver/detail/contact_parts.h"

namespace felloe {

detail::CondensedLoad ContactModel::Impl::sum_of_loads(const std::vector<double> &factors) const {
  assert(factors.size() == loads.size() || factors.empty());
  detail::CondensedLoad sum{
      std::vector<double>(body.n(), 0.0), std::vector<double>(body.n_bolts(), 0.0), {}};
  for (std::size_t l = 0; l < factors.size(); ++l) {
    for (int i = 0; i < body.n(); ++i) sum.reaction[i] += factors[l] * loads[l].reaction[i];
    for (int k = 0; k < body.n_bolts(); ++k) sum.travel[k] += factors[l] * loads[l].travel[k];
    for (int m = 0; m < 6; ++m) sum.on_plane[m] += factors[l] * loads[l].on_plane[m];
  }
  return sum;
}

const detail::NarrowedContact &ContactModel::Impl::narrowed_to(
    const std::vector<bool> &sticks) const {
  if (narrowed && narrowed->sticks() == sticks) return *narrowed;
  tableau.reset();  // it looks at the body that goes
  narrowed = std::make_unique<detail::NarrowedContact>(body, sticks);
  return *narrowed;
}

/// Bolts alone clamp every sector alike: one sector tells what sticks, and what is closed. Where
/// that does not hold, everything.
detail::ContactSet ContactModel::Impl::start_of_clamping(const std::vector<double> &factors) const {
  detail::ContactSet all{std::vector<bool>(body.n_nodes, true), std::vector<bool>(body.n_nodes),
                         std::vector<bool>(body.n_bolts(), true)};
  for (int i = 0; i < body.n_nodes; ++i) all.sticks[i] = may_stick(i);
  const auto is_zero = [](double f) { return f == 0; };
  if (turned.empty() || contact.bolts.empty() ||
      !std::all_of(factors.begin(), factors.end(), is_zero))
    return all;
  double preload = contact.bolts.front().preload, largest = 0, uneven = 0;
  for (const ContactBolt &bolt : contact.bolts) uneven += std::abs(bolt.preload - preload);
  for (int i = 0; i < body.n_nodes; ++i)
    for (int c = 0; c < 3 - first_axis[i]; ++c) {
      double here = 0, next = 0;
      for (const auto &reaction : body.bolt_reaction) {
        here += reaction[body.first[i] + c];
        next += reaction[body.first[turned[i]] + c];
      }
      largest = std::max(largest, std::abs(here));
      uneven = std::max(uneven, preload * std::abs(here - next));
    }
  if (uneven > 1e-6 * preload * largest) return all;

  const std::vector<int> firsts = first_sector();
  const detail::CondensedBody sector = detail::one_sector(body, firsts, turned, mesh.symmetry);
  const std::size_t n = firsts.size();
  std::vector<bool> may;
  for (const int i : firsts) may.push_back(may_stick(i));
  const detail::CondensedState found =
      detail::solved_contact(sector, {std::vector<double>(sector.n(), 0.0), {0}, {}},
                             {{preload, 0, 0}}, {std::vector<bool>(n, true), may, {true}});
  for (std::size_t i = 0; i < n; ++i) {
    int image = firsts[i];
    do {
      all.closed[image] = found.set.closed[i];
      all.sticks[image] = found.set.sticks[i];
      image = turned[image];
    } while (image != firsts[i]);
  }
  return all;
}

ContactState ContactModel::Impl::state(const std::vector<double> &factors,
                                       const std::vector<detail::BoltLaw> &laws,
                                       detail::ContactSet start) const {
  const detail::NarrowedContact &narrow = narrowed_to(start.sticks);
  const detail::CondensedLoad sum = sum_of_loads(factors);
  return state(factors, narrow.widened(sum, detail::solved_contact(narrow.body(), narrow.load(sum),
                                                                   laws, std::move(start))));
}

ContactState ContactModel::Impl::state(const std::vector<double> &factors,
                                       const detail::CondensedState &found) const {
  ContactState s;
  s.factors = factors;
  s.closed = found.set.closed;
  s.sticks = found.set.sticks;
  s.slips = found.set.slips;
  s.slips.resize(nodes.size(), false);
  s.bolt_force = found.bolt_force;
  s.bolt_elongation = found.elongation;
  s.adapter_motion = found.motion;
  s.complementarity_error = detail::complementarity_error(body, found);
  s.steps = found.n_solves;
  double pressed = 0;
  for (int i = 0; i < body.n_nodes; ++i) {
    Vec3 force{}, motion{}, slip{};
    for (int c = first_axis[i]; c < 3; ++c) {
      const int k = body.first[i] + c - first_axis[i];
      double u = found.relative[k];
      for (int m = 0; m < 6; ++m) u += body.plane[k][m] * found.motion[m];
      const Vec3 &e = axes[i][c];
      force = add(force, scale(found.force[k], e));
      motion = add(motion, scale(u, e));
      if (k != body.normal(i)) slip = add(slip, scale(found.relative[k], e));
    }
    const int normal = body.normal(i);
    s.pressure.push_back(-body.side * found.force[normal] / areas[i]);
    s.gap.push_back(body.gap[i] - body.side * found.relative[normal]);
    s.face_force.push_back(force);
    s.face_motion.push_back(motion);
    s.slip.push_back(slip);
    if (s.closed[i]) pressed += areas[i];
  }
  s.open_share = std::max(0.0, 1 - pressed / face_area);
  if (s.open_share < 1e-12) s.open_share = 0;
  return s;
}

const detail::ContactTableau &ContactModel::Impl::tableau_about(const ContactState &before) const {
  const bool same = tableau && narrowed->sticks() == before.sticks;
  if (!same || tableau_closed != before.closed) {
    tableau.reset();
    tableau = std::make_unique<detail::ContactTableau>(
        narrowed_to(before.sticks).body(), detail::ContactSet{before.closed, before.sticks, {}});
    tableau_closed = before.closed;
  }
  return *tableau;
}

std::vector<detail::BoltLaw> ContactModel::Impl::laws_about(const ContactState &before) const {
  std::vector<detail::BoltLaw> laws;
  for (std::size_t k = 0; k < contact.bolts.size(); ++k)
    laws.push_back({before.bolt_force[k], contact.bolts[k].stiffness, before.bolt_elongation[k]});
  return laws;
}

/// Friction acts at the nodes that stick in `about`, whose tableau is used; slip counts from
/// `start`.
ContactState ContactModel::Impl::rubbed(const ContactState &about,
                                        const std::vector<double> &factors,
                                        const std::vector<detail::BoltLaw> &laws,
                                        const ContactState &start) const {
  constexpr double most_wrong = 1e-6;
  const detail::ContactTableau &tableau = tableau_about(about);
  const detail::NarrowedContact &narrow = narrowed_to(about.sticks);
  const detail::CondensedBody &small = narrow.body();
  const detail::CondensedLoad sum = sum_of_loads(factors), load = narrow.load(sum);
  detail::CoulombFriction law{
      contact.friction_coefficient, std::vector<double>(small.n(), 0.0), {}};
  for (int i = 0; i < small.n_nodes; ++i)
    for (int c = small.first[i]; c < small.normal(i); ++c)
      law.reference[c] = dot(axes[i][c - small.first[i]], start.slip[i]);
  const detail::CondensedState found = tableau.rubbed(
      load, laws, {start.closed, about.sticks, std::vector<bool>(contact.bolts.size(), true)}, law);
  ContactState s = state(factors, narrow.widened(sum, found));
  // once more, apart from the search: by the body's own stiffness
  for (int c = 0; c < small.n(); ++c)
    law.stiffness.push_back(small.stiffness[static_cast<std::size_t>(c) * (small.n() + 1)]);
  detail::even_out_across(small, law);
  s.friction_error = detail::friction_error(small, found, law);
  const double balance = detail::balance_error(small, load, found);
  if (!(s.friction_error < most_wrong && balance < most_wrong &&
        s.complementarity_error < most_wrong))
    throw Error("contact: friction is missed by " + std::to_string(1e6 * s.friction_error) +
                ", contact by " + std::to_string(1e6 * s.complementarity_error) + ", balance by " +
                std::to_string(1e6 * balance) +
                " millionths of the forces; at most 1 is allowed: use a finer mesh or another "
                "coefficient");
  return s;
}

ContactState ContactModel::clamped(const std::vector<double> &factors,
                                   const ContactState *start) const {
  std::vector<detail::BoltLaw> laws;
  for (const ContactBolt &b : impl_->contact.bolts) laws.push_back({b.preload, 0, 0});
  detail::ContactSet set = impl_->start_of_clamping(factors);
  if (start) set.closed = start->closed;
  const ContactState stuck = impl_->state(factors, laws, std::move(set));
  return impl_->rubs() ? impl_->rubbed(stuck, factors, laws, stuck) : stuck;
}

ContactState ContactModel::loaded(const ContactState &before, const std::vector<double> &factors,
                                  const ContactState *start) const {
  if (impl_->rubs())
    return impl_->rubbed(before, factors, impl_->laws_about(before), start ? *start : before);
  const detail::ContactTableau &tableau = impl_->tableau_about(before);
  const detail::NarrowedContact &narrow = impl_->narrowed_to(before.sticks);
  const detail::CondensedLoad sum = impl_->sum_of_loads(factors);
  const ContactState &nearest = start ? *start : before;
  detail::ContactSet set{nearest.closed, before.sticks,
                         std::vector<bool>(impl_->contact.bolts.size(), true)};
  return impl_->state(
      factors, narrow.widened(sum, tableau.solved(narrow.load(sum), impl_->laws_about(before),
                                                  std::move(set))));
}

ContactState ContactModel::change(const ContactState &before,
                                  const std::vector<double> &factors) const {
  std::vector<bool> taut;
  for (const double force : before.bolt_force) taut.push_back(force > 0);
  const detail::NarrowedContact &narrow = impl_->narrowed_to(before.sticks);
  const detail::CondensedLoad sum = impl_->sum_of_loads(factors);
  const detail::CondensedState found =
      detail::linear_response(narrow.body(), narrow.load(sum), impl_->laws_about(before),
                              {before.closed, before.sticks, taut});
  ContactState s = impl_->state(factors, narrow.widened(sum, found));
  for (std::size_t i = 0; i < s.gap.size(); ++i) s.gap[i] -= impl_->body.gap[i];
  s.complementarity_error = 0;
  return s;
}

}  // namespace felloe
