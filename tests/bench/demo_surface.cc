// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/bench/demo_surface.h"

#include <algorithm>
#include <stdexcept>

#include "cli/case_file.h"
#include "cli/test_turns.h"
#include "cli/unit_solutions.h"
#include "mesher/wheel_mesh.h"
#include "post/skin.h"

namespace felloe::bench {
namespace {

std::vector<int> skin_nodes(const Mesh &mesh) {
  std::vector<bool> on_skin(mesh.nodes.size(), false);
  for (const CellFace &face : boundary_faces(mesh))
    for (const int n : face_nodes(mesh, face)) on_skin[n] = true;
  std::vector<int> nodes;
  for (std::size_t n = 0; n < on_skin.size(); ++n)
    if (on_skin[n]) nodes.push_back(static_cast<int>(n));
  return nodes;
}

}  // namespace

DemoSurface demo_surface(const std::string &case_file, std::size_t least_points) {
  Case c = read_case(case_file);
  const auto bending = std::find_if(c.tests.begin(), c.tests.end(), [](const RigTest &t) {
    return t.kind == RigTestKind::rotating_bending;
  });
  if (bending == c.tests.end()) throw std::runtime_error(case_file + ": no cornering test");
  c.tests = {*bending};
  c.test_rows.resize(1);
  c.hub.contact = false;
  Analysis a;
  a.layout = layout(c.wheel);
  std::vector<int> nodes;
  for (const double density : {1.0, 1.4, 2.0, 2.8}) {
    c.mesh.density = density;
    a.mesh = wheel_mesh(a.layout, mesh_size(density));
    nodes = skin_nodes(a.mesh);
    if (nodes.size() >= least_points) break;
  }
  Progress quiet(true);
  const PartMaterials materials = {
      {Part::disc, c.disc_material}, {Part::rim, c.rim_material}, {Part::weld, c.weld_material}};
  const UnitSolutions units = solve_units(a, c, materials, solver_for_units(a, c, quiet), quiet);
  const TurnHistory turn = turn_of(a.mesh, c, 0, units);
  DemoSurface surface;
  surface.density = c.mesh.density;
  surface.test = c.tests.front().name;
  surface.constants = constants_of(rating_rules(c), Part::disc);
  for (const int n : nodes) surface.histories.push_back(turn.harmonic(n));
  return surface;
}

}  // namespace felloe::bench
