// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/test_turns.h"

#include <algorithm>

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

/// Press fit, clamp and, with a tyre, inflation.
std::vector<const Solution *> steady_state(const UnitSolutions &units, bool inflated) {
  std::vector<const Solution *> all = pointers(units.pressed);
  for (const Solution *s : pointers(units.clamp)) all.push_back(s);
  if (inflated)
    for (const Solution *s : pointers(units.inflation)) all.push_back(s);
  return all;
}

}  // namespace

TurnHistory turn_of(const Mesh &mesh, const Case &c, std::size_t i, const UnitSolutions &units) {
  const RigTest &test = c.tests[i];
  const bool bending = test.kind == RigTestKind::rotating_bending;
  const double share = test_load(test, c) / (bending ? unit_moment : unit_force);
  if (units.contact.empty())
    return bending ? bending_turn(test.name, steady_state(units, false), units.moment_x,
                                  units.moment_y, share)
                   : rolling_turn(test.name, mesh, steady_state(units, true),
                                  pointers(units.rolling), share);
  const ContactTest &contact = units.contact[i];
  std::vector<const Solution *> steady = pointers(units.pressed);
  for (const Solution *s : pointers(contact.tight)) steady.push_back(s);
  if (contact.superposed && bending)
    return bending_turn(test.name, steady, contact.units[0], contact.units[1], share);
  return rolling_turn(test.name, mesh, steady, pointers(contact.units),
                      contact.superposed ? share : 1);
}

}  // namespace felloe
