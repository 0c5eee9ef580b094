// SPDX-License-Identifier: GPL-3.0-or-later
// A turning load on the clamped hub face, and the stiffness of the bolts.
#include <algorithm>
#include <cmath>

#include "mesher/error.h"
#include "solver/contact.h"

namespace felloe {
namespace {

/// What the next state starts from, as it lies one sector behind.
ContactState start_turned_back(const ContactModel &model, const ContactState &s) {
  ContactState back = s;
  if (model.turned().empty()) return back;
  const double angle = 2 * pi / model.n_sectors(), c = std::cos(angle), sn = std::sin(angle);
  for (std::size_t i = 0; i < s.slip.size(); ++i) {
    const std::size_t ahead = model.turned()[i];
    const Vec3 &u = s.slip[ahead];
    back.slip[i] = {c * u[0] + sn * u[1], c * u[1] - sn * u[0], u[2]};
    back.closed[i] = s.closed[ahead];
  }
  return back;
}

double distance(const ContactState &a, const ContactState &b) {
  double sum = 0;
  for (std::size_t i = 0; i < a.face_force.size(); ++i)
    sum += norm(subtract(a.face_force[i], b.face_force[i]));
  return sum;
}

}  // namespace

SteppedSector step_sector(const ContactModel &model, const ContactState &clamped,
                          const ContactState &first,
                          const std::function<std::vector<double>(int)> &factors, int n_angles) {
  constexpr double settled = 0.01;
  constexpr int most_turns = 3;
  const bool rubs = std::isfinite(model.contact().friction_coefficient);
  SteppedSector all;
  for (all.passes = 0; all.passes < (rubs ? most_turns * model.n_sectors() : 1);) {
    std::vector<ContactState> now;
    ContactState start = all.passes == 0 ? first : start_turned_back(model, all.states.back());
    double changed = 0, moved = 0;
    for (int k = 0; k < n_angles; ++k) {
      now.push_back(model.loaded(clamped, factors(k), k > 0 ? &now.back() : &start));
      if (all.passes > 0) changed = std::max(changed, distance(now[k], all.states[k]));
      moved = std::max(moved, distance(now[k], clamped));
    }
    all.states = std::move(now);
    if (++all.passes == 1) continue;
    all.unsettled = moved > 0 ? changed / moved : 0;
    if (all.unsettled <= settled) break;
  }
  return all;
}

ContactTurn contact_turn(const ContactModel &model, const ContactState &clamped,
                         const std::function<std::vector<double>(double)> &factors, int positions) {
  ContactTurn turn;
  const int sectors = model.n_sectors(),
            in_sector = std::max(1, (positions + sectors - 1) / sectors);
  for (int k = 0; k < in_sector; ++k) turn.angles.push_back(2 * pi * k / (sectors * in_sector));
  turn.states =
      step_sector(
          model, clamped, clamped, [&](int k) { return factors(turn.angles[k]); }, in_sector)
          .states;
  turn.superposition_exact = true;
  std::vector<bool> opens(model.nodes().size(), false);
  const ContactState &first = turn.states.front();
  bool any_bolt = false;
  for (const ContactState &s : turn.states) {
    for (std::size_t i = 0; i < opens.size(); ++i) {
      const std::size_t next = model.turned().empty() ? i : model.turned()[i];
      for (const std::size_t j : {i, next})
        if (s.closed[i] != first.closed[j] || s.sticks[i] != first.sticks[j] || s.slips[i])
          turn.superposition_exact = false;
      if (!s.closed[i]) opens[i] = true;
    }
    for (const double force : s.bolt_force) {
      turn.smallest_bolt_force = any_bolt ? std::min(turn.smallest_bolt_force, force) : force;
      turn.largest_bolt_force = any_bolt ? std::max(turn.largest_bolt_force, force) : force;
      any_bolt = true;
      if (!(force > 0)) turn.superposition_exact = false;
    }
  }
  // what opens in one sector opens a part of the turn later in the next
  for (int sector = 1; sector < sectors; ++sector) {
    const std::vector<bool> before = opens;
    for (std::size_t i = 0; i < opens.size(); ++i)
      if (before[i]) opens[model.turned()[i]] = true;
  }
  double pressed = 0;
  for (std::size_t i = 0; i < opens.size(); ++i)
    if (!opens[i]) pressed += model.areas()[i];
  turn.open_share = std::max(0.0, 1 - pressed / model.face_area());
  return turn;
}

double bolt_stiffness(const BoltThread &thread, double clamped_length, double youngs_modulus) {
  const double d = thread.diameter, d3 = thread.minor_diameter();
  if (!(d3 > 0) || !(clamped_length > 0))
    throw Error("bolt: thread diameter " + std::to_string(d) + " mm, clamped length " +
                std::to_string(clamped_length) + " mm: both must be positive");
  const double nominal = pi / 4 * d * d, core = pi / 4 * d3 * d3;
  return youngs_modulus / ((0.4 + 0.33) * d / nominal + (clamped_length + 0.5 * d) / core);
}

}  // namespace felloe
