// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/thin/rig_loads.h"

#include "cli/unit_solutions.h"
#include "solver/load_kinds.h"

namespace felloe {
namespace {

bool has_radial_test(const Case &c) {
  for (const RigTest &t : c.tests)
    if (t.kind == RigTestKind::radial) return true;
  return false;
}

bool is_clamped(const Case &c) { return c.wheel.bolts.count > 0; }
bool is_inflated(const Case &c) { return has_radial_test(c) && c.tyre.inflation_kPa > 0; }

const char *kept_line = "rim kept in place";

}  // namespace

UnweldedMesh before_welding(const Mesh &mesh) {
  UnweldedMesh before = unwelded(mesh);
  int node = before.split.front().rim_node;
  for (int k = 0; k < mesh.symmetry; ++k) {
    before.mesh.lines[kept_line].push_back(node);
    if (!before.mesh.turned.empty()) node = before.mesh.turned[node];
  }
  return before;
}

std::vector<RigLoads> rig_loads(const Case &c, const MeshedWheel &w, int rolling_positions) {
  std::vector<RigLoads> all(n_rig_families);
  if (c.press_fit.interference_mm > 0) {
    all[pressed].supports.held.push_back({kept_line, {false, true, true}, {}});
    all[pressed].loads = {press_fit(0.5 * c.press_fit.interference_mm)};
  }
  auto &hub = all[hub_held].loads;
  if (is_clamped(c)) hub.push_back(bolt_clamp(w.layout, w.mesh, bolt_preload_of(c)));
  if (is_inflated(c))
    hub.push_back(inflation(w.layout, w.mesh, 1e-3 * c.tyre.inflation_kPa, c.tyre.outer_radius_mm));
  if (has_radial_test(c)) {
    const int n = (rolling_positions + w.mesh.symmetry - 1) / w.mesh.symmetry;
    for (int k = 0; k < n; ++k)
      hub.push_back(radial_load(w.layout, w.mesh, unit_force, c.radial.half_angle_deg,
                                2 * pi * k / (w.mesh.symmetry * n)));
  }
  for (const RigFamily family : {pressed, hub_held}) {
    all[family].supports.adapter_surface = "hub face";
    all[family].supports.adapter_held = true;
  }
  all[rim_held].supports.held.push_back({"flange inboard", {true, true, true}, {}});
  all[rim_held].supports.adapter_surface = "hub face";
  all[rim_held].loads = {adapter_moment(unit_moment, 0), adapter_moment(unit_moment, 0.5 * pi)};
  return all;
}

TurnHistory rig_turn(const Case &c, const RigTest &test, const Mesh &mesh,
                     const std::vector<std::vector<Solution>> &solved) {
  const bool bending = test.kind == RigTestKind::rotating_bending;
  std::vector<const Solution *> steady, rolling;
  for (const Solution &s : solved[pressed]) steady.push_back(&s);
  std::size_t next = 0;
  if (is_clamped(c)) steady.push_back(&solved[hub_held][next++]);
  if (is_inflated(c)) {
    if (!bending) steady.push_back(&solved[hub_held][next]);
    ++next;
  }
  if (bending)
    return bending_turn(test.name, steady, solved[rim_held][0], solved[rim_held][1],
                        bending_moment(test, rated_load_of(c)) / unit_moment);
  for (; next < solved[hub_held].size(); ++next) rolling.push_back(&solved[hub_held][next]);
  return rolling_turn(test.name, mesh, steady, rolling,
                      radial_force(test, rated_load_of(c)) / unit_force);
}

}  // namespace felloe
