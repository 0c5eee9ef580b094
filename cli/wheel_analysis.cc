// SPDX-License-Identifier: GPL-3.0-or-later
// A welded wheel under its rig tests: unit solutions, combined to the history of one turn, rated.
#include <algorithm>
#include <cmath>
#include <functional>

#include "cli/analysis.h"
#include "cli/gauges.h"
#include "cli/rating_steps.h"
#include "cli/service_spectrum.h"
#include "cli/stored_run.h"
#include "cli/test_turns.h"
#include "cli/unit_solutions.h"
#include "post/utilisation.h"
#include "post/worst_first.h"
#include "solver/mass_properties.h"
#include "solver/modes.h"
#include "solver/processes.h"

namespace felloe {
namespace {

/// Each law of scatter by the place that it thinks likeliest to fail.
void add_chances(const std::vector<HotSpot> &spots, int wheels, TestVerdict &verdict) {
  if (spots.empty()) return;
  const auto least = [&](double HotSpot::*survival) {
    const HotSpot &spot = *std::min_element(
        spots.begin(), spots.end(),
        [&](const HotSpot &a, const HotSpot &b) { return a.*survival < b.*survival; });
    verdict.scatter_source = spot.scatter_source;
    return all_pass(spot.*survival, wheels);
  };
  verdict.pass_lognormal = least(&HotSpot::survival_lognormal);
  verdict.pass_weibull = least(&HotSpot::survival_weibull);
  verdict.pass_probability = least(&HotSpot::survival);
}

/// Rates one test and adds verdict, hot spots and fields.
void rate_test(Analysis &a, const Case &c, const RigTest &test, const TurnHistory &turn,
               double load, const std::string &unit, Held held) {
  const RatingRules rules = rating_rules(c);
  const double required = required_cycles(test, rated_load_of(c));
  const auto &places = places_of(a, c, held);
  NodeRatings ratings = a.restored ? place_ratings(a.mesh, places, turn, rules, a.gradients)
                                   : node_ratings(a.mesh, turn, rules);
  std::vector<HotSpot> spots = hot_spots(a.layout, a.mesh, places, turn, ratings, rules, required);
  if (c.hub.contact) forget_bond(spots);
  sort_and_number(spots);
  TestVerdict verdict;
  verdict.name = test.name;
  verdict.kind = test.kind == RigTestKind::rotating_bending ? "rotating bending" : "radial";
  verdict.load = load;
  verdict.load_unit = unit;
  verdict.required_cycles = required;
  if (const HotSpot *shortest = shortest_lived(spots, test.name))
    verdict.life_design = shortest->life_design;
  verdict.verdict = spots.empty() ? Verdict::not_rated : spots.front().verdict;
  verdict.utilisation = spots.empty() ? 0 : utilisation(spots.front());
  verdict.wheels = test.wheels;
  verdict.failure_criterion = failure_criterion(test);
  add_chances(spots, test.wheels, verdict);
  verdict.source = test.source;
  verdict.confidence = test.confidence;
  a.results.tests.push_back(verdict);
  a.results.hot_spots.insert(a.results.hot_spots.end(), spots.begin(), spots.end());
  TestFields fields{test.name, std::move(ratings), held};
  if (!a.restored) {
    rate_by_places(a.mesh, places, rules, spots, required, fields.nodes);
    fields.utilisation = utilisation_of_nodes(a.mesh, places, fields.nodes, rules, spots, required);
    fields.toes = utilisation_of_toes(a.mesh, places, turn, rules, required);
  }
  a.fields.push_back(std::move(fields));
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

}  // namespace

const std::vector<RatedPlace> &places_of(Analysis &a, const Case &c, Held held) {
  const auto found = a.places.find(held);
  if (found != a.places.end()) return found->second;
  return a.places[held] = rated_places(a.layout, a.mesh, held, toe_read_out(c.rating.toe_read_out));
}

void rate_all_tests(Analysis &a, const Case &c, const UnitSolutions &units, Progress &progress) {
  for (std::size_t i = 0; i < c.tests.size(); ++i) {
    const RigTest &test = c.tests[i];
    progress.step("rating: " + test.name);
    const bool bending = test.kind == RigTestKind::rotating_bending;
    const double load = test_load(test, c);
    const TurnHistory turn = turn_of(a.mesh, c, i, units);
    rate_test(a, c, test, turn, bending ? 1e-3 * load : load, bending ? "N m" : "N",
              bending ? Held::rim : Held::hub);
    read_gauges(a, c, turn);
  }
}

namespace {

/// Dry steel on steel, lower end. Source: VDI 2230 (from memory).
constexpr double dry_friction = 0.1;

/// Below this friction could carry less than twice what it does. Own value: coefficients of
/// friction scatter by half.
constexpr double least_slip_margin = 2;

void report_friction(Analysis &a, const ContactFigures &c) {
  const FrictionFigures &f = c.friction;
  const std::string under = "Hub contact under '" + c.test + "': ";
  const auto text = [](double value) { return std::to_string(value).substr(0, 4); };
  if (f.slip_margin < least_slip_margin)
    a.results.cautions.push_back(under + "friction could carry only " + text(f.slip_margin) +
                                 " times what it does before the face slides as a whole.");
  if (f.slipping_share > 0)
    a.results.cautions.push_back(under + std::to_string(std::lround(100 * f.slipping_share)) +
                                 " % of the pressed nodes slip at some angle, up to " +
                                 text(1e3 * f.largest_slip_mm) +
                                 " micrometres since the bolts were tightened; fretting is not "
                                 "rated.");
  if (f.unsettled > 0.01)
    a.results.cautions.push_back(
        under +
        "slip has not settled after three turns: the last sector "
        "still changed " +
        text(100 * f.unsettled) +
        " % of the forces that the load moves on the face; it may go on in "
        "every turn.");
}

void report_contact(Analysis &a, const Case &c, const std::function<void(std::string)> &add) {
  add("hub face in contact with a rigid adapter: nodes stick near the bolts until they lift off, "
      "slide elsewhere; " +
      (c.hub.friction_coefficient > 0
           ? "they slip against Coulomb friction of " +
                 std::to_string(c.hub.friction_coefficient).substr(0, 4) +
                 ", angle after angle until the forces on the face repeat"
           : std::string("friction is not limited")) +
      "; the stiffness is that of a bonded hub");
  const double stiffness = bolt_stiffness_of(a, c);
  add(stiffness == 0 ? std::string("bolts keep their force: no thread and no stiffness is given")
                     : "bolt stiffness " + std::to_string(std::lround(stiffness)) + " N/mm" +
                           (c.hub.bolt_stiffness_N_per_mm > 0
                                ? " (given)"
                                : " from the thread, VDI 2230 formula (from memory)"));
  for (const ContactFigures &f : a.results.contact) {
    if (f.smallest_gap_elsewhere_mm < -0.01)
      a.results.cautions.push_back("Hub contact under '" + f.test +
                                   "': nodes between bolts and border of the hub face, "
                                   "which are not watched, would enter the adapter by " +
                                   std::to_string(-f.smallest_gap_elsewhere_mm).substr(0, 5) +
                                   " mm.");
    if (f.friction.coefficient > 0)
      report_friction(a, f);
    else if (f.friction_needed > dry_friction)
      a.results.cautions.push_back(
          "Hub contact under '" + f.test + "': the face would need a coefficient of friction of " +
          std::to_string(f.friction_needed).substr(0, 4) + " to stick as assumed.");
  }
}

void report_bond(Analysis &a, const Case &c, const std::function<void(std::string)> &add) {
  add("hub face bonded to a rigid adapter: contact opening and bolt load change are not modelled");
  if (c.wheel.bolts.count > 0)
    a.results.cautions.push_back(
        "The hub face was bonded to the adapter: bolt holes swing several times more where it "
        "lifts "
        "off, and a verdict that passes here can fail there. Run the case with [hub] contact = "
        "true "
        "before you trust the bolt holes.");
}

}  // namespace

void report_assumptions(Analysis &a, const Case &c) {
  Results &r = a.results;
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
  const ToeReadOut &read_out = toe_read_out(c.rating.toe_read_out);
  add("weld toe read-out '" + read_out.name + "': " + read_out.summary + "; " + read_out.source +
      " (" + read_out.confidence + ")");
  const WeldResidualStress &residual = weld_residual_stress(c.rating.weld_residual_stress);
  add("residual stress at welds '" + residual.name + "': " + residual.summary + "; " +
      residual.source + " (" + residual.confidence + ")");
  add("criterion '" + rules.criterion->name + "': " + rules.criterion->source);
  if (rules.criterion->takes_mean_stress_rule)
    add("mean stress '" + rules.mean_stress->name + "': " + rules.mean_stress->source + " (" +
        rules.mean_stress->confidence + ")");
  if (c.hub.contact)
    report_contact(a, c, add);
  else
    report_bond(a, c, add);
  if (c.press_fit.interference_mm > 0)
    add(std::string("press fit: acts before the weld is laid; sliding free; ") +
        (c.press_fit.contact
             ? "disc and rim part where it would have to pull; tied again under the loads"
             : "normal direction tied, linear; [press_fit] contact = true lets disc and rim part"));
  add("weld root not rated: a hot-spot rating covers toes only");
  if (c.wheel.bolts.count > 0)
    add("bolt preload " + std::to_string(std::lround(bolt_preload_of(c))) + " N" +
        (c.clamp.preload_N > 0 ? " (given)" : " from torque, VDI 2230 formula (from memory)"));
}

namespace {

/// Load cases for the field files; of the rolling load one position stands for all.
void keep_shown(Analysis &a, UnitSolutions &units) {
  for (auto *group : {&units.pressed, &units.clamp, &units.inflation})
    for (Solution &s : *group) a.shown.push_back(std::move(s));
  for (ContactTest &test : units.contact) {
    for (Solution &s : test.tight) a.shown.push_back(std::move(s));
    if (!test.units.empty()) a.shown.push_back(std::move(test.units.front()));
  }
  if (!units.rolling.empty()) a.shown.push_back(std::move(units.rolling.front()));
  a.shown.push_back(std::move(units.moment_x));
  a.shown.push_back(std::move(units.moment_y));
}

}  // namespace

Analysis analyse_wheel(const Case &input, Progress &progress, Purpose purpose) {
  Analysis a = meshed(input, progress);
  check_gauges(a, input);
  weld_toe_places(a.layout, a.mesh, toe_read_out(input.rating.toe_read_out));  // or an Error now
  check_spectrum(input);
  const PartMaterials materials = {{Part::disc, input.disc_material},
                                   {Part::rim, input.rim_material},
                                   {Part::weld, input.weld_material}};
  const MassProperties mass = mass_properties(a.mesh, materials);
  a.results.mass_kg = mass.total;
  a.results.disc_mass_kg = mass.parts.at(Part::disc);
  a.results.rim_mass_kg = mass.parts.at(Part::rim);
  a.results.static_unbalance_g_mm = 1e3 * mass.static_unbalance;
  a.results.couple_unbalance_g_mm2 = 1e3 * mass.couple_unbalance;
  const ChosenSolver solver = solver_for_units(a, input, progress);
  if (!solves_here(solver)) return a;
  UnitSolutions units = solve_units(a, input, materials, solver, progress);
  if (!Processes::first()) return a;
  report_stiffness(a.results, units.stiffness);
  report_modes(a, input.modes.count, materials, progress);
  rate_all_tests(a, input, units, progress);
  rate_spectrum(a, input, units, progress);
  sort_and_number(a.results.hot_spots);
  report_assumptions(a, input);
  if (purpose == Purpose::files) {
    progress.step("stresses of one turn", Work::writing);
    a.histories = store_run(a, input, units);
    keep_turns(a, input, units);
    keep_shown(a, units);
  }
  progress.finish();
  return a;
}

}  // namespace felloe
