// SPDX-License-Identifier: GPL-3.0-or-later
// Contact states near a known one: what is held there stays eliminated, only changes cost work.
#pragma once
#include <vector>

#include "solver/detail/condensed_contact.h"

namespace felloe::detail {

/// With K u = w, w = R - r - P B, the tableau of a base set of held components H gives
///
///   [u_O]   [ K_OO^-1        -K_OO^-1 K_OH                ] [w_O]
///   [w_H] = [ K_HO K_OO^-1    K_HH - K_HO K_OO^-1 K_OH    ] [u_H]
///
/// so that a set that differs from the base in q components is one dense system of q unknowns,
/// instead of one of all open components. Source: principal pivot transform, R. W. Cottle, J.-S.
/// Pang, R. E. Stone, The Linear Complementarity Problem, 1992, section 2.3 (from memory).
class ContactTableau {
 public:
  /// Throws Error when the base leaves a motion of the body free.
  ContactTableau(const CondensedBody &, const ContactSet &base);

  /// As solved_contact().
  CondensedState solved(const CondensedLoad &, const std::vector<BoltLaw> &,
                        ContactSet start) const;

 private:
  struct Response;
  bool solve(const CondensedLoad &, const std::vector<BoltLaw> &,
             const std::vector<double> &to_load, CondensedState &) const;
  Response response(const CondensedLoad &, const std::vector<double> &to_load,
                    const std::vector<bool> &now, const std::vector<int> &changed,
                    const std::vector<double> &change) const;
  double given_motion(int component) const;
  std::vector<bool> held_components(const ContactSet &) const;

  const CondensedBody &b_;
  int n_ = 0, n_rest_ = 0;     ///< components; motions of the plane and bolts
  std::vector<bool> held_;     ///< of each component, in the base
  std::vector<int> node_;      ///< of each component
  std::vector<double> table_;  ///< n x n
  std::vector<double> rest_;   ///< inputs by a unit of each of the rest, n x n_rest
  std::vector<double> to_rest_;
};

}  // namespace felloe::detail
