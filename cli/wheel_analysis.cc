// SPDX-License-Identifier: GPL-3.0-or-later
// A welded wheel: two ways of holding it, few unit loads each, every rig test a combination.
//
//   rim held (rotating bending)         hub held (radial)
//   inboard flange in the clamp ring    hub face on a rigid adapter
//   moment on the adapter               load rolls over both bead seats, tyre inflated
//
// Bolt clamp and press fit act in both as a steady state.
#include <cmath>

#include "cli/analysis.h"
#include "mesher/error.h"
#include "solver/mass_properties.h"

namespace felloe {
namespace {

constexpr double unit_moment = 1e6;  // [N mm]
constexpr double unit_force = 1e4;   // [N]
constexpr double degree = pi / 180;

bool has_test(const Case &c, RigTestKind kind) {
  for (const RigTest &t : c.tests)
    if (t.kind == kind) return true;
  return false;
}

RatedLoad rated_load(const Case &c) {
  return {c.rated_load_kg, c.tyre.static_radius_mm, c.tyre.dynamic_radius_mm, c.wheel.rim.inset};
}

double preload(const Case &c) {
  if (c.clamp.preload_N > 0) return c.clamp.preload_N;
  const BoltHoles &b = c.wheel.bolts;
  return bolt_preload(c.clamp.torque_Nm * 1e3, c.clamp.thread, c.clamp.thread_friction,
                      c.clamp.seat_friction, 0.5 * (b.diameter + b.seat_diameter),
                      b.seat_cone_angle);
}

/// Clamp and press fit, the steady state of every test.
std::vector<LoadCase> steady_loads(const Case &c, const Analysis &a) {
  std::vector<LoadCase> loads;
  if (c.wheel.bolts.count > 0) loads.push_back(bolt_clamp(a.layout, a.mesh, preload(c)));
  if (c.press_fit.interference_mm > 0)
    loads.push_back(press_fit(0.5 * c.press_fit.interference_mm));
  return loads;
}

/// Load positions inside one sector, so that the whole turn has at least the asked number.
std::vector<LoadCase> rolling_loads(const Case &c, const Analysis &a) {
  const int sectors = a.mesh.symmetry;
  const int in_sector = (c.radial.positions_per_turn + sectors - 1) / sectors;
  std::vector<LoadCase> loads;
  for (int k = 0; k < in_sector; ++k) {
    const double angle = 2 * pi * k / (sectors * in_sector);
    LoadCase load = radial_load(a.layout, a.mesh, unit_force, c.radial.half_angle_deg, angle);
    load.name = "radial load at " + std::to_string(angle / degree).substr(0, 5) + " deg";
    loads.push_back(std::move(load));
  }
  return loads;
}

std::vector<const Solution *> pointers(const std::vector<Solution> &all, std::size_t begin,
                                       std::size_t end) {
  std::vector<const Solution *> p;
  for (std::size_t i = begin; i < end; ++i) p.push_back(&all[i]);
  return p;
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

void report_stiffness(Results &r, const Solution &moment, const Solution &axial,
                      const Solution &lateral) {
  r.stiffness.tilt_Nm_per_deg = 1e-3 * unit_moment / (moment.adapter_motion[3] / degree);
  r.stiffness.axial_N_per_mm = unit_force / axial.adapter_motion[2];
  r.stiffness.radial_N_per_mm = unit_force / lateral.adapter_motion[0];
}

/// Rim in the clamp ring, hub on a free rigid adapter.
void rotating_bending(Analysis &a, const Case &c, const ElasticModel &model, Progress &progress) {
  progress.step("rim held: clamp, press fit, moments, forces");
  const double before = progress.total_seconds();
  std::vector<LoadCase> loads = steady_loads(c, a);
  const std::size_t n_steady = loads.size();
  loads.push_back(adapter_moment(unit_moment, 0));
  loads.push_back(adapter_moment(unit_moment, pi / 2));
  loads.push_back(adapter_force({0, 0, unit_force}));
  loads.push_back(adapter_force({unit_force, 0, 0}));
  loads[n_steady].name = "moment about x";
  loads[n_steady + 1].name = "moment about y";
  loads[n_steady + 2].name = "axial force";
  loads[n_steady + 3].name = "lateral force";
  for (std::size_t i = 0; i < loads.size(); ++i) loads[i].name += ", rim held";
  Supports supports;
  supports.held.push_back({"flange inboard", {true, true, true}, {}});
  supports.adapter_surface = "hub face";
  const std::vector<Solution> solved = model.solve(supports, loads);
  report_load_cases(a, loads, solved, progress.total_seconds() - before);
  report_stiffness(a.results, solved[n_steady], solved[n_steady + 2], solved[n_steady + 3]);
  a.shown.insert(a.shown.end(), solved.begin(), solved.begin() + static_cast<long>(n_steady) + 2);
  progress.step("rating: rotating bending");
  for (const RigTest &test : c.tests) {
    if (test.kind != RigTestKind::rotating_bending) continue;
    const double moment = bending_moment(test, rated_load(c));
    const TurnHistory turn =
        bending_turn(test.name, pointers(solved, 0, n_steady), solved[n_steady],
                     solved[n_steady + 1], moment / unit_moment);
    rate_test(a, c, test, turn, 1e-3 * moment, "N m", Held::rim);
  }
}

/// Hub on a rigid adapter, rim loaded through the tyre.
void rolling(Analysis &a, const Case &c, const ElasticModel &model, Progress &progress) {
  progress.step("hub held: clamp, press fit, inflation, radial");
  const double before = progress.total_seconds();
  std::vector<LoadCase> loads = steady_loads(c, a);
  if (c.tyre.inflation_kPa > 0)
    loads.push_back(
        inflation(a.layout, a.mesh, 1e-3 * c.tyre.inflation_kPa, c.tyre.outer_radius_mm));
  const std::size_t n_steady = loads.size();
  for (LoadCase &load : rolling_loads(c, a)) loads.push_back(std::move(load));
  for (LoadCase &load : loads) load.name += ", hub held";
  Supports supports;
  supports.adapter_surface = "hub face";
  supports.adapter_held = true;
  const std::vector<Solution> solved = model.solve(supports, loads);
  report_load_cases(a, loads, solved, progress.total_seconds() - before);
  a.shown.insert(a.shown.end(), solved.begin(), solved.begin() + static_cast<long>(n_steady) + 1);
  progress.step("rating: radial");
  for (const RigTest &test : c.tests) {
    if (test.kind != RigTestKind::radial) continue;
    const double force = radial_force(test, rated_load(c));
    const TurnHistory turn =
        rolling_turn(test.name, a.mesh, pointers(solved, 0, n_steady),
                     pointers(solved, n_steady, solved.size()), force / unit_force);
    rate_test(a, c, test, turn, force, "N", Held::hub);
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
  add("press fit: normal direction tied, sliding free, linear");
  add("weld root not rated: a hot-spot rating covers toes only");
  if (c.wheel.bolts.count > 0)
    add("bolt preload " + std::to_string(std::lround(preload(c))) + " N" +
        (c.clamp.preload_N > 0 ? " (given)" : " from torque, VDI 2230 formula (from memory)"));
}

}  // namespace

Analysis analyse_wheel(const Case &input, Progress &progress) {
  Analysis a = meshed(input, progress);
  const std::map<Part, Material> parts = {{Part::disc, input.disc_material},
                                          {Part::rim, input.rim_material},
                                          {Part::weld, input.weld_material}};
  progress.step("stiffness matrix");
  const ElasticModel model(a.mesh, parts, NodalFrame::cylindrical);
  a.results.mesh.dofs = model.figures().dofs;
  progress.remark(std::to_string(model.figures().dofs) + " unknowns");
  const MassProperties mass = mass_properties(a.mesh, parts);
  a.results.mass_kg = mass.total;
  a.results.disc_mass_kg = mass.parts.count(Part::disc) ? mass.parts.at(Part::disc) : 0;
  a.results.rim_mass_kg = mass.parts.count(Part::rim) ? mass.parts.at(Part::rim) : 0;
  a.results.static_unbalance_g_mm = 1e3 * mass.static_unbalance;
  a.results.couple_unbalance_g_mm2 = 1e3 * mass.couple_unbalance;
  rotating_bending(a, input, model, progress);
  if (has_test(input, RigTestKind::radial)) rolling(a, input, model, progress);
  sort_and_number(a.results.hot_spots);
  report_assumptions(a.results, input);
  progress.finish();
  return a;
}

}  // namespace felloe
