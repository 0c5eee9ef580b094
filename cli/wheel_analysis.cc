// SPDX-License-Identifier: GPL-3.0-or-later
// A welded wheel under its rig tests: unit solutions, combined to the history of one turn, rated.
#include <cmath>

#include "cli/analysis.h"
#include "cli/unit_solutions.h"
#include "solver/mass_properties.h"
#include "solver/modes.h"

namespace felloe {
namespace {

RatedLoad rated_load(const Case &c) {
  return {c.rated_load_kg, c.tyre.static_radius_mm, c.tyre.dynamic_radius_mm, c.wheel.rim.inset};
}

RatingRules rating_rules(const Case &c) {
  RatingRules rules;
  rules.criterion = &fatigue_criterion(c.rating.criterion);
  rules.survival = c.rating.survival_percent / 100;
  rules.materials = {
      {Part::disc, c.disc_material}, {Part::rim, c.rim_material}, {Part::weld, c.weld_material}};
  rules.roughness_rz = c.rating.roughness_rz_um;
  rules.sheared_edge_factor = c.rating.sheared_edge_factor;
  rules.vent_edges = c.rating.vent_edges;
  rules.bolt_edges = c.rating.bolt_edges;
  rules.weld_class = c.rating.weld_class;
  return rules;
}

/// Rates one test and adds verdict, hot spots and fields.
void rate_test(Analysis &a, const Case &c, const RigTest &test, const TurnHistory &turn,
               double load, const std::string &unit, Held held) {
  const RatingRules rules = rating_rules(c);
  const double required = required_cycles(test, rated_load(c));
  NodeRatings ratings = node_ratings(a.mesh, turn, rules);
  std::vector<HotSpot> spots = hot_spots(a.layout, a.mesh, rated_places(a.layout, a.mesh, held),
                                         turn, ratings, rules, required);
  sort_and_number(spots);
  TestVerdict verdict;
  verdict.name = test.name;
  verdict.kind = test.kind == RigTestKind::rotating_bending ? "rotating bending" : "radial";
  verdict.load = load;
  verdict.load_unit = unit;
  verdict.required_cycles = required;
  verdict.life_design = spots.empty() ? 0 : spots.front().life_design;
  verdict.verdict = spots.empty() ? Verdict::not_rated : spots.front().verdict;
  verdict.source = test.source;
  verdict.confidence = test.confidence;
  a.results.tests.push_back(verdict);
  a.results.hot_spots.insert(a.results.hot_spots.end(), spots.begin(), spots.end());
  a.fields.push_back({test.name, std::move(ratings)});
}

void report_stiffness(Results &r, const AdapterStiffness &k) {
  r.stiffness.tilt_Nm_per_deg = k.tilt_Nm_per_deg();
  r.stiffness.axial_N_per_mm = k.axial_N_per_mm();
  r.stiffness.radial_N_per_mm = k.radial_N_per_mm();
  r.stiffness.torsion_Nm_per_deg = k.torsion_Nm_per_deg();
  r.stiffness.matrix = k.stiffness;
}

/// Free, without its rigid motions, and on the rigid hub adapter; press fit tied, nothing else
/// acts.
void report_modes(Analysis &a, int count, const PartMaterials &materials, Progress &progress) {
  if (count == 0) return;
  progress.step("natural frequencies: free wheel");
  const int rigid = 6;
  for (const Mode &m :
       natural_modes(a.mesh, materials, Supports{}, count + rigid, NodalFrame::cylindrical))
    if (m.frequency > 0) a.results.modes.push_back({"free", m.frequency, m.effective_mass});
  progress.step("natural frequencies: hub held");
  Supports held;
  held.adapter_surface = "hub face";
  held.adapter_held = true;
  for (const Mode &m : natural_modes(a.mesh, materials, held, count, NodalFrame::cylindrical))
    a.results.modes.push_back({"hub", m.frequency, m.effective_mass});
}

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

void rate_all_tests(Analysis &a, const Case &c, const UnitSolutions &units, Progress &progress) {
  for (const RigTest &test : c.tests) {
    progress.step("rating: " + test.name);
    if (test.kind == RigTestKind::rotating_bending) {
      const double moment = bending_moment(test, rated_load(c));
      const TurnHistory turn = bending_turn(test.name, steady_state(units, false), units.moment_x,
                                            units.moment_y, moment / unit_moment);
      rate_test(a, c, test, turn, 1e-3 * moment, "N m", Held::rim);
    } else {
      const double force = radial_force(test, rated_load(c));
      const TurnHistory turn = rolling_turn(test.name, a.mesh, steady_state(units, true),
                                            pointers(units.rolling), force / unit_force);
      rate_test(a, c, test, turn, force, "N", Held::hub);
    }
  }
}

void report_assumptions(Results &r, const Case &c) {
  auto &list = r.assumptions;
  const auto add = [&](const std::string &text) {
    for (const auto &have : list)
      if (have == text) return;
    list.push_back(text);
  };
  for (const RigTest &t : c.tests)
    add("rig test '" + t.name + "': " + t.source + " (" + t.confidence + ")");
  const RatingRules rules = rating_rules(c);
  for (Surface s : {Surface::parent, Surface::vent_edge, Surface::bolt_edge, Surface::weld_toe}) {
    const SnCurve curve = curve_for(rules, s, Part::disc);
    add("S-N curve '" + curve.name + "': " + curve.source + " (" + curve.confidence + ")");
    for (const auto &text : curve.assumptions) add(text);
  }
  add("criterion '" + rules.criterion->name + "': " + rules.criterion->source);
  add("hub face bonded to a rigid adapter: contact opening and bolt load change are not modelled");
  add("press fit: acts before the weld is laid; normal direction tied, sliding free, linear");
  add("weld root not rated: a hot-spot rating covers toes only");
  if (c.wheel.bolts.count > 0)
    add("bolt preload " + std::to_string(std::lround(bolt_preload_of(c))) + " N" +
        (c.clamp.preload_N > 0 ? " (given)" : " from torque, VDI 2230 formula (from memory)"));
}

/// Load cases for the field files; of the rolling load one position stands for all.
void keep_shown(Analysis &a, UnitSolutions &units) {
  for (auto *group : {&units.pressed, &units.clamp, &units.inflation})
    for (Solution &s : *group) a.shown.push_back(std::move(s));
  if (!units.rolling.empty()) a.shown.push_back(std::move(units.rolling.front()));
  a.shown.push_back(std::move(units.moment_x));
  a.shown.push_back(std::move(units.moment_y));
}

}  // namespace

Analysis analyse_wheel(const Case &input, Progress &progress) {
  Analysis a = meshed(input, progress);
  const PartMaterials materials = {{Part::disc, input.disc_material},
                                   {Part::rim, input.rim_material},
                                   {Part::weld, input.weld_material}};
  const MassProperties mass = mass_properties(a.mesh, materials);
  a.results.mass_kg = mass.total;
  a.results.disc_mass_kg = mass.parts.at(Part::disc);
  a.results.rim_mass_kg = mass.parts.at(Part::rim);
  a.results.static_unbalance_g_mm = 1e3 * mass.static_unbalance;
  a.results.couple_unbalance_g_mm2 = 1e3 * mass.couple_unbalance;
  UnitSolutions units = solve_units(a, input, materials, progress);
  report_stiffness(a.results, units.stiffness);
  report_modes(a, input.modes.count, materials, progress);
  rate_all_tests(a, input, units, progress);
  sort_and_number(a.results.hot_spots);
  report_assumptions(a.results, input);
  keep_shown(a, units);
  progress.finish();
  return a;
}

}  // namespace felloe
