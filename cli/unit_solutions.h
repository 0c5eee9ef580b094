// SPDX-License-Identifier: GPL-3.0-or-later
// The few solves behind all rig tests of a welded wheel.
#pragma once
#include <map>
#include <vector>

#include "cli/analysis.h"
#include "cli/hub_contact.h"
#include "cli/solver_choice.h"
#include "solver/adapter_stiffness.h"

namespace felloe {

constexpr double unit_moment = 1e6;  ///< [N mm]
constexpr double unit_force = 1e4;   ///< [N]

/// What acts all the time, and unit loads of both ways to hold the wheel.
///
///   pressed   before welding          interference of disc and rim, no weld
///   hub held  face on rigid adapter   clamp, inflation, load positions inside one sector
///   rim held  clamp ring of the       unit moments about x and y on the adapter,
///             bending machine         the other unit loads of the stiffness
struct UnitSolutions {
  std::vector<Solution> pressed;    ///< press fit, or empty
  std::vector<Solution> clamp;      ///< bolt clamp, or empty
  std::vector<Solution> inflation;  ///< or empty
  std::vector<Solution> rolling;    ///< unit_force at positions evenly spaced in one sector
  Solution moment_x, moment_y;
  AdapterStiffness stiffness;        ///< rim held
  std::vector<ContactTest> contact;  ///< of each rig test; empty: hub bonded
};

using PartMaterials = std::map<Part, Material>;

/// Preload of one bolt [N]: as given, or from the torque.
double bolt_preload_of(const Case &);

RatedLoad rated_load_of(const Case &);

/// The solver for all of them.
ChosenSolver solver_for_units(Analysis &, const Case &, Progress &);

/// Solves everything and puts the load cases into the results.
/// @param stress_nodes  of each node of the mesh: whether its stress is wanted; empty: all
UnitSolutions solve_units(Analysis &, const Case &, const PartMaterials &, const ChosenSolver &,
                          Progress &, const std::vector<bool> &stress_nodes = {});

}  // namespace felloe
