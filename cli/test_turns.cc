// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/test_turns.h"

#include <algorithm>

#include "post/skin.h"

namespace felloe {

RatingRules rating_rules(const Case &c) {
  RatingRules rules;
  rules.criterion = &fatigue_criterion(c.rating.criterion);
  rules.mean_stress = &mean_stress_rule(c.rating.mean_stress);
  rules.survival = c.rating.survival_percent / 100;
  rules.materials = {
      {Part::disc, c.disc_material}, {Part::rim, c.rim_material}, {Part::weld, c.weld_material}};
  rules.roughness_rz = c.rating.roughness_rz_um;
  rules.sheared_edge_factor = c.rating.sheared_edge_factor;
  rules.vent_edges = c.rating.vent_edges;
  rules.bolt_edges = c.rating.bolt_edges;
  rules.burr_side = c.rating.burr_side;
  rules.surface = c.rating.surface;
  rules.notch_support = c.rating.notch_support;
  rules.weld_class = c.rating.weld_class;
  rules.weld_residual_stress = c.rating.weld_residual_stress;
  for (const CurveInput &own : c.curves) rules.own_curves[own.use_for] = own.curve;
  return rules;
}

void forget_bond(std::vector<HotSpot> &spots) {
  for (HotSpot &spot : spots)
    spot.notes.erase(std::remove_if(spot.notes.begin(), spot.notes.end(),
                                    [](const std::string &note) {
                                      return note.find("bonded") != std::string::npos;
                                    }),
                     spot.notes.end());
}

double test_load(const RigTest &test, const Case &c) {
  return test.kind == RigTestKind::rotating_bending ? bending_moment(test, rated_load_of(c))
                                                    : radial_force(test, rated_load_of(c));
}

namespace {

std::vector<const Solution *> pointers(const std::vector<Solution> &solutions) {
  std::vector<const Solution *> p;
  for (const Solution &s : solutions) p.push_back(&s);
  return p;
}

/// Clamp and, with a tyre, inflation.
std::vector<const Solution *> steady_state(const UnitSolutions &units, bool inflated) {
  std::vector<const Solution *> all = pointers(units.clamp);
  if (inflated)
    for (const Solution *s : pointers(units.inflation)) all.push_back(s);
  return all;
}

}  // namespace

TurnHistory turn_of(const Mesh &mesh, const Case &c, std::size_t i, const UnitSolutions &units) {
  const RigTest &test = c.tests[i];
  const bool bending = test.kind == RigTestKind::rotating_bending;
  const double share = test_load(test, c) / (bending ? unit_moment : unit_force);
  const std::vector<const Solution *> pressed = pointers(units.pressed);
  if (units.contact.empty())
    return bending ? bending_turn(test.name, steady_state(units, false), units.moment_x,
                                  units.moment_y, share, pressed)
                   : rolling_turn(test.name, mesh, steady_state(units, true),
                                  pointers(units.rolling), share, pressed);
  const ContactTest &contact = units.contact[i];
  const std::vector<const Solution *> tight = pointers(contact.tight);
  if (contact.superposed && bending)
    return bending_turn(test.name, tight, contact.units[0], contact.units[1], share, pressed);
  return rolling_turn(test.name, mesh, tight, pointers(contact.units),
                      contact.superposed ? share : 1, pressed);
}

void keep_turns(Analysis &a, const Case &c, const UnitSolutions &units) {
  // Every 15 degrees of a moment; of a rolling load every few of its positions.
  constexpr int angles_of_moment = 24, most_positions = 36;
  constexpr double moment_along_x = 0, load_from_below = 270;  // [deg]
  a.surface = surface_quads(a.mesh, boundary_faces(a.mesh), false);
  for (std::size_t i = 0; i < c.tests.size(); ++i) {
    const bool bending = c.tests[i].kind == RigTestKind::rotating_bending;
    const TurnHistory turn = turn_of(a.mesh, c, i, units);
    TestFields &fields = a.fields[i];
    fields.turn = turn_fields(turn, a.surface.nodes, bending ? angles_of_moment : most_positions);
    fields.displacement = motion_at(turn, static_cast<int>(a.mesh.nodes.size()),
                                    bending ? moment_along_x : load_from_below);
    fields.state = bending ? "moment about the axis at 0 degrees" : "load at 270 degrees";
  }
}

}  // namespace felloe
