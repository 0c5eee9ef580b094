// SPDX-License-Identifier: GPL-3.0-or-later
// Contact states near a known one: what is held there stays eliminated, only changes cost work.
#pragma once
#include <array>
#include <vector>

#include "solver/detail/condensed_contact.h"
#include "solver/detail/coulomb_friction.h"

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

  /// The state with Coulomb friction where the set says sticks, found by a damped semi-smooth
  /// Newton method: contact and friction are projections, each linear but for kinks. Source:
  /// P. Alart and A. Curnier, Computer Methods in Applied Mechanics and Engineering 92 (1991) 353
  /// (from memory). Throws Error when no balance is found: the face slides as a whole.
  CondensedState rubbed(const CondensedLoad &, const std::vector<BoltLaw> &, ContactSet start,
                        const CoulombFriction &) const;

 private:
  struct Response;
  /// What is asked: the load, the law of the bolts, d of what is held.
  struct Question {
    const CondensedLoad &load;
    const std::vector<BoltLaw> &laws;
    std::vector<double> held_motion, to_load;
  };
  /// In place of the base's: sum of force R + motion d over the components of a node = value.
  struct Condition {
    int component = 0;
    std::array<double, 3> force{}, motion{};
    double value = 0;
  };
  Question question(const CondensedLoad &, const std::vector<BoltLaw> &,
                    std::vector<double> held_motion) const;
  std::vector<Condition> sides(const Question &, const ContactSet &) const;
  std::vector<Condition> sides_and_slips(const Question &, const CoulombFriction &,
                                         const CondensedState &latest, const ContactSet &) const;
  bool solve(const Question &, const std::vector<Condition> &, CondensedState &) const;
  std::vector<double> changes(const Question &, const std::vector<Condition> &, bool &ok) const;
  Response response(const Question &, const std::vector<Condition> &,
                    const std::vector<double> &change) const;
  std::vector<double> gaps() const;
  /// Input (base) or output of the component in column l, without any change.
  double input(const Question &, int component, int l) const;
  double output(const Question &, int component, int l) const;
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
