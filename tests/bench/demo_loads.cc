// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/bench/demo_loads.h"

#include <algorithm>
#include <chrono>

#include "cli/case_file.h"
#include "cli/sweep/section_design.h"
#include "cli/unit_solutions.h"
#include "mesher/unwelded.h"
#include "mesher/wheel_mesh.h"
#include "solver/load_kinds.h"
#include "solver/modes.h"

namespace felloe::bench {
namespace {

using Clock = std::chrono::steady_clock;

double seconds_since(Clock::time_point start) {
  return std::chrono::duration<double>(Clock::now() - start).count();
}

PartMaterials materials_of(const Case &c) {
  return {
      {Part::disc, c.disc_material}, {Part::rim, c.rim_material}, {Part::weld, c.weld_material}};
}

Supports hub_held() {
  Supports supports;
  supports.adapter_surface = "hub face";
  supports.adapter_held = true;
  return supports;
}

void add_solve(const ElasticModel &model, const Supports &supports,
               const std::vector<LoadCase> &loads, SolveTimes &times) {
  for (const Solution &s : model.solve(supports, loads))
    times.residual = std::max(times.residual, s.residual);
  const SolveFigures &f = model.figures();
  times.loads += static_cast<int>(loads.size());
  times.sectors = f.sectors;
  times.factor += f.factor_seconds;
  times.solve += f.solve_seconds;
  times.stresses += f.recovery_seconds;
  times.entries = std::max(times.entries, f.factor_entries);
}

/// One model, one way to hold it.
SolveTimes solved(const Mesh &mesh, const Case &c, const Supports &supports,
                  const std::vector<LoadCase> &loads, SolvePath path) {
  SolveTimes times;
  const auto start = Clock::now();
  const ElasticModel model(mesh, materials_of(c), NodalFrame::cylindrical, path);
  times.dofs = model.figures().dofs;
  times.assembly = model.figures().assembly_seconds;
  add_solve(model, supports, loads, times);
  times.total = seconds_since(start) - times.stresses;
  return times;
}

/// Disc pressed into the rim before it is welded; see cli/unit_solutions.cc.
void press_together(const MeshedCase &m, SolvePath path, SolveTimes &times) {
  UnweldedMesh before = unwelded(m.analysis.mesh);
  Mesh &mesh = before.mesh;
  int node = before.split.front().rim_node;
  for (int k = 0; k < mesh.symmetry; ++k) {
    mesh.lines["rim kept in place"].push_back(node);
    if (!mesh.turned.empty()) node = mesh.turned[node];
  }
  Supports supports = hub_held();
  supports.held.push_back({"rim kept in place", {false, true, true}});
  const ElasticModel model(mesh, materials_of(m.input), NodalFrame::cylindrical, path);
  times.assembly += model.figures().assembly_seconds;
  add_solve(model, supports, {press_fit(0.5 * m.input.press_fit.interference_mm)}, times);
}

/// Radial load at n angles from 0 on, evenly over the given part of a turn.
std::vector<LoadCase> rolling(const MeshedCase &m, int n, double part_of_turn) {
  const Analysis &a = m.analysis;
  std::vector<LoadCase> loads;
  for (int k = 0; k < n; ++k)
    loads.push_back(radial_load(a.layout, a.mesh, unit_force, m.input.radial.half_angle_deg,
                                2 * pi * part_of_turn * k / n));
  return loads;
}

std::vector<LoadCase> rolling_in_sector(const MeshedCase &m) {
  const int sectors = m.analysis.mesh.symmetry;
  return rolling(m, (m.input.radial.positions_per_turn + sectors - 1) / sectors, 1.0 / sectors);
}

std::vector<LoadCase> clamp_inflation_radial(const MeshedCase &m) {
  const Analysis &a = m.analysis;
  std::vector<LoadCase> loads = {
      bolt_clamp(a.layout, a.mesh, bolt_preload_of(m.input)),
      inflation(a.layout, a.mesh, 1e-3 * m.input.tyre.inflation_kPa, m.input.tyre.outer_radius_mm)};
  for (LoadCase &load : rolling_in_sector(m)) loads.push_back(std::move(load));
  return loads;
}

}  // namespace

MeshedCase meshed_case(const std::string &file, double density) {
  MeshedCase m;
  m.input = read_case(file);
  m.input.mesh.density = density;
  Progress quiet(true);
  const auto start = Clock::now();
  m.analysis = meshed(m.input, quiet);
  m.mesh_seconds = seconds_since(start);
  return m;
}

double density_for(const std::string &file, long least_dofs) {
  const WheelLayout shape = layout(read_case(file).wheel);
  double density = 1;
  while (3 * static_cast<long>(wheel_mesh(shape, mesh_size(density)).nodes.size()) < least_dofs)
    density += 0.05;
  return density;
}

SolveTimes all_loads(const MeshedCase &m, SolvePath path) {
  SolveTimes times;
  const auto start = Clock::now();
  press_together(m, path, times);
  const ElasticModel model(m.analysis.mesh, materials_of(m.input), NodalFrame::cylindrical, path);
  times.dofs = model.figures().dofs;
  times.assembly += model.figures().assembly_seconds;
  add_solve(model, hub_held(), clamp_inflation_radial(m), times);
  Supports rim_held = flange_held();
  rim_held.adapter_surface = "hub face";
  rim_held.press_fit_tied = true;
  add_solve(model, rim_held, {adapter_moment(unit_moment, 0), adapter_moment(unit_moment, pi / 2)},
            times);
  times.total = seconds_since(start) - times.stresses;
  return times;
}

SectionTimes section_times(const std::string &file) {
  const Case c = read_case(file);
  SectionTimes best;
  for (int repetition = 0; repetition < 7; ++repetition) {
    const auto start = Clock::now();
    const DesignFigures f = section_figures(c);
    const double whole = seconds_since(start);
    if (repetition == 0 || f.solve_seconds < best.solve) best = {f.dofs, f.solve_seconds, whole};
  }
  return best;
}

std::pair<double, double> modes_times(const MeshedCase &m) {
  const auto start = Clock::now();
  const std::vector<Mode> modes = natural_modes(m.analysis.mesh, materials_of(m.input), hub_held(),
                                                20, NodalFrame::cylindrical);
  return {seconds_since(start), modes.back().frequency};
}

SolveTimes radial_loads(const MeshedCase &m, int n_loads, SolvePath path) {
  return solved(m.analysis.mesh, m.input, hub_held(), rolling(m, n_loads, 1), path);
}

std::vector<LoadCase> surface_loads(const MeshedCase &m) {
  std::vector<LoadCase> loads = clamp_inflation_radial(m);
  for (LoadCase &load : loads) load.adapter = {};
  for (const int axis : {0, 1}) {
    LoadCase moment;
    moment.name = axis == 0 ? "moment about x" : "moment about y";
    moment.tractions = {{"hub face", [axis](const Vec3 &x, const Vec3 &) {
                           return Vec3{0, 0, 0.01 * x[1 - axis]};
                         }}};
    loads.push_back(std::move(moment));
  }
  return loads;
}

Supports flange_held() {
  Supports supports;
  supports.held.push_back({"flange inboard", {true, true, true}});
  supports.press_fit_tied = false;
  return supports;
}

SolveTimes flange_held_loads(const MeshedCase &m, SolvePath path) {
  Mesh mesh = m.analysis.mesh;
  mesh.position = nullptr;
  return solved(mesh, m.input, flange_held(), surface_loads(m), path);
}

}  // namespace felloe::bench
