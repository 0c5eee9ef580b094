// SPDX-License-Identifier: GPL-3.0-or-later
// A turning load on the clamped hub face, and the stiffness of the bolts.
#include <algorithm>

#include "mesher/error.h"
#include "solver/contact.h"

namespace felloe {

ContactTurn contact_turn(const ContactModel &model, const ContactState &clamped,
                         const std::function<std::vector<double>(double)> &factors, int positions) {
  ContactTurn turn;
  const int sectors = model.n_sectors(),
            in_sector = std::max(1, (positions + sectors - 1) / sectors);
  for (int k = 0; k < in_sector; ++k) {
    turn.angles.push_back(2 * pi * k / (sectors * in_sector));
    const ContactState *start = k > 0 ? &turn.states.back() : &clamped;
    turn.states.push_back(model.loaded(clamped, factors(turn.angles.back()), start));
  }
  turn.superposition_exact = true;
  std::vector<bool> opens(model.nodes().size(), false);
  const ContactState &first = turn.states.front();
  bool any_bolt = false;
  for (const ContactState &s : turn.states) {
    for (std::size_t i = 0; i < opens.size(); ++i) {
      const std::size_t next = model.turned().empty() ? i : model.turned()[i];
      for (const std::size_t j : {i, next})
        if (s.closed[i] != first.closed[j] || s.sticks[i] != first.sticks[j])
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
