// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/unit_solutions.h"

#include <algorithm>
#include <cmath>

#include "mesher/unwelded.h"
#include "post/stress_smoothing.h"
#include "solver/load_kinds.h"
#include "solver/press_fit_contact.h"

namespace felloe {
namespace {

/// A rolling load is needed.
bool has_radial_test(const Case &c) {
  if (!c.spectrum.empty()) return true;
  for (const RigTest &t : c.tests)
    if (t.kind == RigTestKind::radial) return true;
  return false;
}

/// Says at which share of the pairs, by number, the tie pulls instead of pushing.
void warn_of_pulling(Analysis &a, const std::vector<double> &force) {
  const double largest = *std::max_element(force.begin(), force.end());
  const auto pull =
      std::count_if(force.begin(), force.end(), [&](double f) { return f < -1e-6 * largest; });
  if (pull > 0)
    a.results.cautions.push_back(
        "The press fit is tied and pulls at " +
        std::to_string(std::lround(100.0 * pull / force.size())) +
        " % of its nodes, where disc and rim would part: stresses near it are too even. Run the "
        "case with [press_fit] contact = true before you trust the weld.");
}

/// The interference acts before the weld is laid. Hub on the adapter; of the rim one node a sector
/// is kept from turning and from moving along the axis: equal in all sectors and in sum without
/// load, these supports carry nothing.
Solution solve_press_fit(Analysis &a, const Case &c, const PartMaterials &materials,
                         bool matrix_free, const std::vector<bool> &stress_nodes,
                         Progress &progress) {
  progress.step("press fit before welding");
  const double start = progress.total_seconds();
  UnweldedMesh before = unwelded(a.mesh);
  Mesh &mesh = before.mesh;
  int node = before.split.front().rim_node;
  for (int k = 0; k < mesh.symmetry; ++k) {
    mesh.lines["rim kept in place"].push_back(node);
    if (!mesh.turned.empty()) node = mesh.turned[node];
  }
  Supports supports;
  supports.adapter_surface = "hub face";
  supports.adapter_held = true;
  supports.held.push_back({"rim kept in place", {false, true, true}});
  const std::vector<LoadCase> load{press_fit(0.5 * c.press_fit.interference_mm)};
  AnyModel model(matrix_free, mesh, materials, NodalFrame::cylindrical);
  if (!stress_nodes.empty()) {
    std::vector<bool> wanted(mesh.nodes.size(), false);
    for (std::size_t n = 0; n < stress_nodes.size(); ++n)
      if (before.node[n] >= 0) wanted[before.node[n]] = stress_nodes[n];
    model.stresses_only_at(std::move(wanted));
  }
  Solution solved;
  if (c.press_fit.contact) {
    PressedTogether pressed = pressed_together(model, mesh, supports, load.front());
    progress.remark(std::to_string(pressed.lifted.size()) + " of " +
                    std::to_string(mesh.press_fit.size()) + " pairs apart, found in " +
                    std::to_string(pressed.steps) + " solves");
    solved = std::move(pressed.solution);
  } else {
    solved = std::move(model.solve(supports, load).front());
  }
  warn_of_pulling(a, solved.press_fit_force);
  report_load_cases(a, load, {solved}, progress.total_seconds() - start, &model);
  Solution on_welded = solved;
  on_welded.displacement.clear();
  on_welded.stress.clear();
  for (const int n : before.node) {  // the weld is laid on afterwards, free of stress
    on_welded.displacement.push_back(n >= 0 ? solved.displacement[n] : Vec3{});
    on_welded.stress.push_back(n >= 0 ? solved.stress[n] : Stress{});
  }
  return on_welded;
}

int positions_in_sector(const Analysis &a, const Case &c) {
  return (c.radial.positions_per_turn + a.mesh.symmetry - 1) / a.mesh.symmetry;
}

/// Load positions inside one sector, so that the whole turn has at least the asked number.
std::vector<LoadCase> rolling_loads(const Analysis &a, const Case &c) {
  const int sectors = a.mesh.symmetry;
  const int in_sector = positions_in_sector(a, c);
  std::vector<LoadCase> loads;
  for (int k = 0; k < in_sector; ++k) {
    const double angle = 2 * pi * k / (sectors * in_sector);
    loads.push_back(radial_load(a.layout, a.mesh, unit_force, c.radial.half_angle_deg, angle));
    loads.back().name = "radial load at " + std::to_string(angle * 180 / pi).substr(0, 5) + " deg";
  }
  return loads;
}

void hub_held(Analysis &a, const Case &c, const AnyModel &model, UnitSolutions &units,
              Progress &progress) {
  std::vector<LoadCase> loads;
  const bool clamp = c.wheel.bolts.count > 0, radial = has_radial_test(c);
  const bool inflate = radial && c.tyre.inflation_kPa > 0;
  if (clamp) loads.push_back(bolt_clamp(a.layout, a.mesh, bolt_preload_of(c)));
  if (inflate)
    loads.push_back(
        inflation(a.layout, a.mesh, 1e-3 * c.tyre.inflation_kPa, c.tyre.outer_radius_mm));
  if (radial)
    for (LoadCase &load : rolling_loads(a, c)) loads.push_back(std::move(load));
  if (loads.empty()) return;
  progress.step("hub held: " + std::to_string(loads.size()) + " loads");
  const double before = progress.total_seconds();
  Supports supports;
  supports.adapter_surface = "hub face";
  supports.adapter_held = true;
  std::vector<Solution> solved = model.solve(supports, loads);
  report_load_cases(a, loads, solved, progress.total_seconds() - before, &model);
  auto next = std::make_move_iterator(solved.begin());
  if (clamp) units.clamp.push_back(*next++);
  if (inflate) units.inflation.push_back(*next++);
  units.rolling.assign(next, std::make_move_iterator(solved.end()));
}

/// All six loads of the stiffness; two of them are the cornering moments.
void rim_held(Analysis &a, const AnyModel &model, UnitSolutions &units, Progress &progress) {
  std::vector<LoadCase> loads = adapter_loads(unit_force, unit_moment);
  const char *names[] = {"lateral force",
                         "lateral force along y",
                         "axial force",
                         "cornering moment about x",
                         "cornering moment about y",
                         "torsional moment"};
  for (int i = 0; i < 6; ++i) loads[i].name = names[i];
  progress.step("rim held: " + std::to_string(loads.size()) + " loads");
  const double before = progress.total_seconds();
  Supports supports;
  supports.held.push_back({"flange inboard", {true, true, true}});
  supports.adapter_surface = "hub face";
  std::vector<Solution> solved = model.solve(supports, loads);
  report_load_cases(a, loads, solved, progress.total_seconds() - before, &model);
  std::vector<std::array<double, 6>> motions;
  for (const Solution &s : solved) motions.push_back(s.adapter_motion);
  units.stiffness = adapter_stiffness(motions, unit_force, unit_moment);
  units.moment_x = std::move(solved[3]);
  units.moment_y = std::move(solved[4]);
}

void smooth_stresses(const Analysis &a, UnitSolutions &units) {
  const StressSmoothing smoothing(a.layout, a.mesh);
  for (auto *group : {&units.pressed, &units.clamp, &units.inflation, &units.rolling})
    for (Solution &s : *group) smoothing.apply(s.stress);
  for (ContactTest &test : units.contact)
    for (auto *group : {&test.tight, &test.units})
      for (Solution &s : *group) smoothing.apply(s.stress);
  smoothing.apply(units.moment_x.stress);
  smoothing.apply(units.moment_y.stress);
}

}  // namespace

double bolt_preload_of(const Case &c) {
  if (c.clamp.preload_N > 0) return c.clamp.preload_N;
  const BoltHoles &b = c.wheel.bolts;
  return bolt_preload(c.clamp.torque_Nm * 1e3, c.clamp.thread, c.clamp.thread_friction,
                      c.clamp.seat_friction, 0.5 * (b.diameter + b.seat_diameter),
                      b.seat_cone_angle);
}

RatedLoad rated_load_of(const Case &c) {
  return {c.rated_load_kg, c.tyre.static_radius_mm, c.tyre.dynamic_radius_mm, c.wheel.rim.inset};
}

ChosenSolver solver_for_units(Analysis &a, const Case &c, Progress &progress) {
  const bool pressed = c.press_fit.interference_mm > 0, clamp = c.wheel.bolts.count > 0;
  const bool radial = has_radial_test(c);
  const int hub_loads = (clamp ? 1 : 0) + (radial ? 1 + positions_in_sector(a, c) : 0);
  SolveCounts counts{1, 0, 6 + hub_loads};
  if (hub_loads > 0) ++counts.supports;
  if (pressed) ++counts.supports, ++counts.symmetric, ++counts.loads;
  return chosen_solver(a, c, counts, c.hub.contact ? "contact of the hub face" : "", progress);
}

UnitSolutions solve_units(Analysis &a, const Case &c, const PartMaterials &materials,
                          const ChosenSolver &solver, Progress &progress,
                          const std::vector<bool> &stress_nodes) {
  UnitSolutions units;
  if (c.hub.contact) name_touching_nodes(a, c);
  const SolveMeasurement measurement(progress);
  // First and with a model of its own, which is gone before the other one is made.
  if (c.press_fit.interference_mm > 0)
    units.pressed.push_back(
        solve_press_fit(a, c, materials, solver.matrix_free, stress_nodes, progress));
  progress.step("stiffness matrix");
  AnyModel model(solver.matrix_free, a.mesh, materials, NodalFrame::cylindrical);
  model.stresses_only_at(stress_nodes);
  a.results.mesh.dofs = model.dofs();
  progress.remark(std::to_string(model.dofs()) + " unknowns");
  if (!c.hub.contact) hub_held(a, c, model, units, progress);
  rim_held(a, model, units, progress);
  if (c.hub.contact) units.contact = contact_tests(a, c, *model.direct(), progress);
  measurement.report(a, model.path());
  smooth_stresses(a, units);
  return units;
}

}  // namespace felloe
