// SPDX-License-Identifier: GPL-3.0-or-later
// Unilateral contact of a body with a rigid plane, condensed on the contact nodes and the bolts:
// small, dense, and blind to the finite elements behind it.
//
// With u the motion of the contact components, a the six motions of the plane, T a the motion of
// the plane at the components and d = u - T a, the forces of the plane on the body are
//
//   R = K (d + T a) + r + P B
//
// K: condensed stiffness, r: forces that the load brings to the held face, P: the same for unit
// bolt forces, B: bolt forces. What is closed has d = side x gap in normal direction, what sticks
// has d = 0 across; every other component has R = 0. The plane is in balance, and a taut bolt obeys
// B = preload + stiffness (e - e0).
#pragma once
#include <array>
#include <functional>
#include <vector>

namespace felloe::detail {

using Six = std::array<double, 6>;

struct CondensedBody {
  int n_nodes = 0;
  std::vector<int> first;  ///< component of each node, and of the end; a node's last is the normal
  double side = -1;        ///< direction of the face's outward normal along the axis, +1 or -1
  std::vector<double> stiffness;  ///< n x n, symmetric
  std::vector<Six> plane;         ///< rows of T: translation, rotation about the origin
  std::vector<double> gap;        ///< of each node before loading, >= 0 or interference < 0
  std::vector<std::vector<double>> bolt_reaction;  ///< columns of P, one a bolt
  std::vector<std::vector<double>> bolt_give;      ///< [k][l]: travel of the seat k along the pull
                                                   ///< of its bolt, per force of bolt l, face held
  std::vector<Six> bolt_pull;                      ///< unit force of each bolt on the body
  std::array<bool, 6> plane_free{};

  int n() const { return first.back(); }
  int normal(int node) const { return first[node + 1] - 1; }
  int n_bolts() const { return static_cast<int>(bolt_pull.size()); }
};

/// One load on the body with the face held, and on the plane.
struct CondensedLoad {
  std::vector<double> reaction;  ///< r
  std::vector<double> travel;    ///< of each seat along the pull of its bolt
  Six on_plane{};
};

/// Bolt force = preload + stiffness (elongation - reference), never below 0; stiffness 0: always
/// the preload.
struct BoltLaw {
  double preload = 0, stiffness = 0, reference = 0;
};

struct ContactSet {
  std::vector<bool> closed;   ///< of each node
  std::vector<bool> sticks;   ///< of each node: held across, if components across take part
  std::vector<bool> taut;     ///< of each bolt
  std::vector<bool> slips{};  ///< of each node: under Coulomb friction, at its bound; empty: none
};

struct CondensedState {
  ContactSet set;
  std::vector<double> relative;  ///< d
  std::vector<double> force;     ///< R
  Six motion{};                  ///< a
  std::vector<double> bolt_force, elongation;
  int n_solves = 0;
};

/// Finds the closed nodes by block principal pivoting: every node that offends changes sides at
/// once; when that stops helping, one at a time (Murty's rule). With fixed sticking nodes this is a
/// linear complementarity problem with a positive definite matrix: the rule ends, the solution is
/// unique. Source: Judice and Pires, Computers and Operations Research 21 (1994) 587 (from memory).
///
/// Of the nodes that stick at the start, those found open stop sticking for good and the search is
/// repeated until none is: a node that has lifted off slides when it comes back. The sticking nodes
/// only get fewer, so this ends too and does not depend on the closed nodes of the start.
/// Throws Error when no set is found or the body can fly off.
CondensedState solved_contact(const CondensedBody &, const CondensedLoad &,
                              const std::vector<BoltLaw> &, ContactSet start);

/// Fills in the state of its set; false when the set leaves a motion free.
using TrySet = std::function<bool(CondensedState &)>;
/// The same search with another way to try a set.
CondensedState solved_contact(const CondensedBody &, const std::vector<BoltLaw> &, ContactSet start,
                              const TrySet &);

/// Rows of the rest, motions of the plane and then bolts: those that are not free, and bolts of
/// known force, get their value.
void fix_rest(const CondensedBody &, const std::vector<BoltLaw> &, const ContactSet &,
              std::vector<std::vector<double>> &rows);
/// Dense rows, right-hand side last, solved by Gaussian elimination with row pivoting; false when
/// singular.
bool eliminate(std::vector<std::vector<double>> &rows);

/// How the state changes under the load when no node and no bolt changes sides: bolts by their
/// stiffness, gaps and preloads stay behind. Throws Error when the set leaves a motion free.
CondensedState linear_response(const CondensedBody &, const CondensedLoad &,
                               const std::vector<BoltLaw> &, const ContactSet &);

/// Largest offence against p >= 0, g >= 0 and p g = 0, forces over the largest force and gaps over
/// the largest relative motion.
double complementarity_error(const CondensedBody &, const CondensedState &);

}  // namespace felloe::detail
