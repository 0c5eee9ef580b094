// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sweep/wheel_design.h"

#include "cli/sweep/test_figures.h"
#include "cli/test_turns.h"
#include "mesher/error.h"
#include "mesher/wheel_mesh.h"
#include "post/stress_smoothing.h"
#include "post/worst_first.h"
#include "solver/mass_properties.h"

namespace felloe {

struct WheelDesigns::Kept {};

WheelDesigns::WheelDesigns() : kept_(new Kept) {}
WheelDesigns::~WheelDesigns() = default;

namespace {

using Places = std::vector<std::vector<RatedPlace>>;  ///< of each rig test

Held held_under(const RigTest &test) {
  return test.kind == RigTestKind::rotating_bending ? Held::rim : Held::hub;
}

/// Rated nodes with all that a turn by sectors makes of them.
std::vector<bool> rated_nodes(const Mesh &mesh, const Places &places) {
  std::vector<bool> rated(mesh.nodes.size(), false);
  const auto add = [&](int n) {
    for (; !rated[n]; n = mesh.turned.empty() ? n : mesh.turned[n]) rated[n] = true;
  };
  for (const auto &of_test : places)
    for (const RatedPlace &place : of_test) {
      for (const int n : place.nodes) add(n);
      for (const ToePoint &toe : place.toe_points)
        for (const int n : toe.nodes) add(n);
    }
  return rated;
}

TestFigures rated(const Analysis &a, const Case &c, std::size_t i, const UnitSolutions &units,
                  const std::vector<RatedPlace> &places) {
  const RigTest &test = c.tests[i];
  const RatingRules rules = rating_rules(c);
  const double required = required_cycles(test, rated_load_of(c));
  const TurnHistory turn = turn_of(a.mesh, c, i, units);
  // The gradient at a notch asks its neighbours too.
  const NodeRatings ratings = rules.notch_support ? node_ratings(a.mesh, turn, rules)
                                                  : place_ratings(a.mesh, places, turn, rules);
  std::vector<HotSpot> spots = hot_spots(a.layout, a.mesh, places, turn, ratings, rules, required);
  sort_and_number(spots);
  return test_figures(test.name, spots, required);
}

}  // namespace

DesignFigures WheelDesigns::evaluate(const Case &c) {
  DesignFigures figures;
  Progress watch(true);
  Analysis a;
  a.layout = layout(c.wheel);
  a.mesh = wheel_mesh(a.layout, mesh_size(c.mesh.density));
  const PartMaterials materials = {
      {Part::disc, c.disc_material}, {Part::rim, c.rim_material}, {Part::weld, c.weld_material}};
  const MassProperties mass = mass_properties(a.mesh, materials);
  figures.mass_kg = mass.total;
  figures.disc_mass_kg = mass.parts.at(Part::disc);
  Places places;
  for (const RigTest &test : c.tests)
    places.push_back(
        rated_places(a.layout, a.mesh, held_under(test), toe_read_out(c.rating.toe_read_out)));
  figures.setup_seconds = watch.total_seconds();
  std::vector<bool> stress_nodes;  // empty: all
  if (!c.rating.notch_support) {
    stress_nodes = rated_nodes(a.mesh, places);
    StressSmoothing(a.layout, a.mesh).widen(stress_nodes);
  }
  const UnitSolutions units =
      solve_units(a, c, materials, solver_for_units(a, c, watch), watch, stress_nodes);
  figures.dofs = a.results.mesh.dofs;
  figures.tilt_Nm_per_deg = units.stiffness.tilt_Nm_per_deg();
  figures.axial_N_per_mm = units.stiffness.axial_N_per_mm();
  figures.radial_N_per_mm = units.stiffness.radial_N_per_mm();
  const double solved = watch.total_seconds();
  figures.solve_seconds = solved - figures.setup_seconds;
  for (std::size_t i = 0; i < c.tests.size(); ++i)
    figures.tests.push_back(rated(a, c, i, units, places[i]));
  figures.verdict = verdict_of(figures.tests);
  figures.rating_seconds = watch.total_seconds() - solved;
  return figures;
}

}  // namespace felloe
