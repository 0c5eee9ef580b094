// SPDX-License-Identifier: GPL-3.0-or-later
// Smaller condensed contact problems with the same answer: without the components that stay free,
// and one sector for all.
#pragma once
#include <vector>

#include "solver/detail/condensed_contact.h"

namespace felloe::detail {

/// A node that does not stick slides for good: no force ever acts across there, so its components
/// across are eliminated once for all states to come. A face of which little sticks gets almost
/// three times fewer unknowns.
class NarrowedContact {
 public:
  /// Throws Error when a motion is free though everything else is held.
  NarrowedContact(const CondensedBody &, const std::vector<bool> &sticks);

  const std::vector<bool> &sticks() const { return sticks_; }
  const CondensedBody &body() const { return narrow_; }
  CondensedLoad load(const CondensedLoad &) const;
  /// The state with all components of the full body.
  CondensedState widened(const CondensedLoad &of_full_body, const CondensedState &) const;

 private:
  std::vector<double> solved(std::vector<double> right_hand_sides, int n_columns) const;

  const CondensedBody &full_;
  std::vector<bool> sticks_;
  CondensedBody narrow_;
  std::vector<int> kept_, gone_;  ///< components of the full body
  std::vector<double> factor_;    ///< of the stiffness of what is gone
};

/// A state that is the same in every sector, under bolts of equal force, as the state of one
/// sector whose bolt stands for all. Nodes in the order of `firsts`.
/// @param turned  where each node comes to by one sector; axes turn with the nodes
CondensedBody one_sector(const CondensedBody &, const std::vector<int> &firsts,
                         const std::vector<int> &turned, int n_sectors);

}  // namespace felloe::detail
