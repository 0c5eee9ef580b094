// SPDX-License-Identifier: GPL-3.0-or-later
// A plain disc without rim: held at its outer edge, loaded at its rigid hub or by pressure. Lets a
// user compare with plate theory through the front door.
#include <cmath>

#include "cli/solver_choice.h"
#include "mesher/error.h"
#include "post/worst_first.h"
#include "solver/mass_properties.h"
#include "solver/processes.h"

namespace felloe {
namespace {

/// The rigid hub takes the hub face where one is given, else the whole bore.
std::string hub_surface(const Analysis &a) { return a.layout.hub_face_s > 0 ? "hub face" : "bore"; }

Supports plate_supports(const Case &c, const Analysis &a) {
  Supports s;
  s.adapter_surface = hub_surface(a);
  s.press_fit_tied = false;
  switch (c.outer_edge) {
    case OuterEdge::held:
      s.held.push_back({"outer edge", {true, true, true}, {}});
      break;
    case OuterEdge::simply_supported:
      // height and turning held on the mid-line; the edge may draw in and rotate
      s.held.push_back({"outer edge mid-line", {false, true, true}, {}});
      break;
    case OuterEdge::free:
      s.adapter_held = true;
      break;
  }
  return s;
}

std::vector<LoadCase> plate_loads(const Case &c) {
  std::vector<LoadCase> loads;
  if (c.plate.hub_moment_Nm != 0) {
    loads.push_back(adapter_moment(1e3 * c.plate.hub_moment_Nm, 0));
    loads.back().name = "hub moment";
  }
  if (c.plate.hub_force_N != 0) {
    loads.push_back(adapter_force({0, 0, c.plate.hub_force_N}));
    loads.back().name = "hub force";
  }
  if (c.plate.pressure_MPa != 0) {
    const double p = c.plate.pressure_MPa;
    LoadCase load;
    load.name = "pressure";
    load.kind = "pressure";
    load.tractions.push_back(
        {"disc outboard side", [p](const Vec3 &, const Vec3 &n) { return scale(-p, n); }});
    loads.push_back(load);
  }
  if (c.outer_edge == OuterEdge::free)
    for (const LoadCase &load : loads)
      if (norm(load.adapter.force) > 0 || norm(load.adapter.moment) > 0)
        throw Error("[plate_load] " + load.name +
                    ": with a free outer edge the hub is held, so a load on the hub does nothing; "
                    "use pressure_MPa, or hold the outer edge");
  if (loads.empty())
    throw Error("[plate_load]: no load is given; set hub_moment_Nm, hub_force_N or pressure_MPa");
  return loads;
}

/// Largest von Mises stress away from held borders, as a hot spot that is not rated.
HotSpot most_stressed(const Analysis &a, const Solution &s) {
  HotSpot spot;
  spot.test = s.load_case;
  spot.criterion = "von Mises stress";
  for (const RatedPlace &place : a.places.at(Held::plate))
    for (int n : place.nodes) {
      const double stress = von_mises(s.stress[n]);
      if (stress <= spot.amplitude) continue;
      spot.amplitude = stress;
      spot.feature = place.feature;
      spot.position = a.mesh.nodes[n];
      spot.side = side_of(a.layout, a.mesh, n);
    }
  spot.r = std::hypot(spot.position[0], spot.position[1]);
  spot.theta_deg = std::atan2(spot.position[1], spot.position[0]) * 180 / pi;
  spot.z = spot.position[2];
  return spot;
}

}  // namespace

Analysis analyse_plate(const Case &input, Progress &progress) {
  Analysis a = meshed(input, progress);
  const std::map<Part, Material> parts = {{Part::disc, input.disc_material}};
  const Supports supports = plate_supports(input, a);
  const std::vector<LoadCase> loads = plate_loads(input);
  const ChosenSolver solver =
      chosen_solver(a, input, {1, 0, static_cast<int>(loads.size())}, "", progress);
  if (!solves_here(solver)) return a;
  const SolveMeasurement measurement(progress);
  progress.step("stiffness matrix");
  const AnyModel model(solver.matrix_free, a.mesh, parts, NodalFrame::cylindrical);
  a.results.mesh.dofs = model.dofs();
  const MassProperties mass = mass_properties(a.mesh, parts);
  a.results.mass_kg = a.results.disc_mass_kg = mass.total;
  a.results.static_unbalance_g_mm = 1e3 * mass.static_unbalance;
  a.results.couple_unbalance_g_mm2 = 1e3 * mass.couple_unbalance;
  progress.step("solve");
  const double before = progress.total_seconds();
  a.shown = model.solve(supports, loads);
  report_load_cases(a, loads, a.shown, progress.total_seconds() - before, &model);
  measurement.report(a, model.path());
  if (!Processes::first()) return a;
  const double degree = pi / 180;
  a.places[Held::plate] = rated_places(a.layout, a.mesh, Held::plate);
  for (const Solution &s : a.shown) {
    if (s.load_case == "hub moment")
      a.results.stiffness.tilt_Nm_per_deg =
          input.plate.hub_moment_Nm / (s.adapter_motion[3] / degree);
    if (s.load_case == "hub force")
      a.results.stiffness.axial_N_per_mm = input.plate.hub_force_N / s.adapter_motion[2];
    a.results.hot_spots.push_back(most_stressed(a, s));
    TestFields fields{s.load_case, {}};
    fields.displacement = s.displacement;
    fields.state = "under its whole load";
    for (const Stress &stress : s.stress) fields.nodes.amplitude.push_back(von_mises(stress));
    a.fields.push_back(std::move(fields));
  }
  sort_and_number(a.results.hot_spots);
  a.results.assumptions.push_back(
      "linear elasticity, small displacements; a plain disc is not rated");
  progress.finish();
  return a;
}

}  // namespace felloe
