// SPDX-License-Identifier: GPL-3.0-or-later
// The hub face in contact with the adapter: what one rig test does to a clamped wheel in one turn.
#pragma once
#include <string>
#include <vector>

#include "cli/analysis.h"
#include "solver/contact.h"

namespace felloe {

/// Solutions of one rig test whose hub touches instead of being bonded.
///
/// Superposed: `tight` acts all the time and `units` are what unit loads change, as with a bonded
/// hub. Else `units` are whole states at even angles inside one sector.
struct ContactTest {
  bool superposed = false;
  std::vector<Solution> tight;  ///< clamped, with a tyre inflated; empty when not superposed
  std::vector<Solution> units;  ///< bending superposed: moments about x and y
};

/// Axial stiffness of a bolt [N/mm]: as given, or from its thread and the disc's thickness; 0, a
/// bolt of constant force, when neither is known.
double bolt_stiffness_of(const Analysis &, const Case &);

/// Puts the lines of the nodes that may touch into the mesh; before any ElasticModel is made of it.
void name_touching_nodes(Analysis &, const Case &);

/// Distance of superposed and found nodal forces of the face, sum over the nodes, over the sum of
/// what the load changes: the share of the load's path that superposition gets wrong.
/// @param change  ContactModel::change() of the same load
double superposition_error(const ContactState &clamped, const ContactState &loaded,
                           const ContactState &change);

/// Up to this error unit solutions are superposed; beyond, the angle is stepped. A share of 5 % of
/// the forces on the face is far less of the stress elsewhere. Own value.
constexpr double largest_superposition_error = 0.05;

/// Clamps and turns every rig test of the case, in its order; figures go to the results. Throws
/// Error as ContactModel.
std::vector<ContactTest> contact_tests(Analysis &, const Case &, const ElasticModel &, Progress &);

}  // namespace felloe
