// SPDX-License-Identifier: GPL-3.0-or-later
// Coulomb's law at the nodes of a condensed contact, as a projection.
#pragma once
#include <array>
#include <vector>

#include "solver/detail/condensed_contact.h"

namespace felloe::detail {

/// Across a node acts at most coefficient times the force that presses it; at that bound the node
/// slips against its friction. Friction acts where ContactSet::sticks.
struct CoulombFriction {
  double coefficient = 0;
  std::vector<double> reference;  ///< d across from which slip counts, of each component
  std::vector<double> stiffness;  ///< r > 0 of each component [N/mm], see projected(); across a
                                  ///< node the same in both directions
};
/// Gives both directions across a node their mean stiffness: the bound is a circle.
void even_out_across(const CondensedBody &, CoulombFriction &);

/// A node's forces as Coulomb's and Signorini's laws want them from forces and motions found:
/// pressing p <- max(0, p - r gap), across t <- (t - r slip) cut to the length coefficient x p.
/// Both laws hold exactly where nothing changes, for any r > 0.
struct ProjectedForces {
  double pressing = 0, bound = 0;
  std::array<double, 2> across{};        ///< cut
  std::array<double, 2> trial_across{};  ///< before it is cut
  bool closed = false, slips = false;
};
ProjectedForces projected(const CondensedBody &, const CondensedState &, const CoulombFriction &,
                          int node);

/// Largest distance of any node from its projection, over the largest force: how far the state is
/// from Coulomb's cone, from slip against friction, and from contact.
double friction_error(const CondensedBody &, const CondensedState &, const CoulombFriction &);

/// The plane's forces and moments out of balance, over the sums of their sizes at the nodes.
double balance_error(const CondensedBody &, const CondensedLoad &, const CondensedState &);

}  // namespace felloe::detail
