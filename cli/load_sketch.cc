// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/load_sketch.h"

#include <algorithm>
#include <cmath>

#include "cli/unit_solutions.h"

namespace felloe {
namespace {

std::string whole(double value) { return std::to_string(std::lround(value)); }

/// (r, z) in the middle of a surface of revolution.
Vec2 middle_of(const Mesh &mesh, const std::string &name) {
  Vec2 sum{};
  const std::vector<int> nodes = surface_nodes(mesh, name);
  for (const int n : nodes) {
    sum[0] += std::hypot(mesh.nodes[n][0], mesh.nodes[n][1]) / double(nodes.size());
    sum[1] += mesh.nodes[n][2] / double(nodes.size());
  }
  return sum;
}

std::vector<std::string> steady_loads(const Case &c, bool inflated) {
  std::vector<std::string> notes;
  if (c.wheel.bolts.count > 0)
    notes.push_back("all the time: " + std::to_string(c.wheel.bolts.count) + " bolts with " +
                    whole(bolt_preload_of(c)) + " N each");
  if (c.press_fit.interference_mm > 0)
    notes.push_back("press fit, laid down before welding: interference " +
                    std::to_string(c.press_fit.interference_mm).substr(0, 4) + " mm on diameter");
  if (inflated && c.tyre.inflation_kPa > 0)
    notes.push_back("tyre pressure " + whole(c.tyre.inflation_kPa) + " kPa");
  return notes;
}

}  // namespace

LoadSketch load_sketch(const Analysis &a, const Case &c, const TestVerdict &test) {
  LoadSketch sketch;
  if (test.kind == "rotating bending") {
    sketch.held = {"flange inboard"};
    sketch.held_label = "inboard flange of the rim, in the clamp ring of the machine";
    sketch.turns = {{{0, 0}, "M = " + whole(test.load) + " N m"}};
    sketch.notes = {
        "the moment acts on the hub by a rigid adapter; its axis, which points out of "
        "the page here, turns round the wheel axis"};
  } else {
    sketch.held = {"hub face"};
    sketch.held_label = "hub face, on a rigid adapter";
    for (const char *seat : {"bead seat outboard", "bead seat inboard"}) {
      const Vec2 at = middle_of(a.mesh, seat);
      sketch.arrows.push_back({{-at[0], at[1]}, {1, 0}, whole(test.load / 2) + " N"});
    }
    sketch.notes = {"F = " + whole(test.load) + " N, half on each bead seat, spread over " +
                    whole(2 * c.radial.half_angle_deg) + " degrees; it rolls round the rim"};
  }
  for (const std::string &note : steady_loads(c, test.kind != "rotating bending"))
    sketch.notes.push_back(note);
  return sketch;
}

LoadSketch load_sketch(const Analysis &a, const Case &c, const std::string &plate_load) {
  LoadSketch sketch;
  const std::string hub = a.layout.hub_face_s > 0 ? "hub face" : "bore";
  const bool free_edge = c.outer_edge == OuterEdge::free;
  sketch.held = {free_edge ? hub : "outer edge"};
  sketch.held_label = free_edge ? hub + ", on a rigid adapter"
                      : c.outer_edge == OuterEdge::simply_supported
                          ? "outer edge, on its mid-line, free to rotate"
                          : "outer edge";
  if (plate_load == "hub moment")
    sketch.turns = {{{0, 0}, "M = " + whole(c.plate.hub_moment_Nm) + " N m"}};
  if (plate_load == "hub force")
    sketch.arrows = {{{0, 0},
                      {0, c.plate.hub_force_N > 0 ? 1.0 : -1.0},
                      whole(std::abs(c.plate.hub_force_N)) + " N"}};
  if (plate_load == "pressure")
    sketch.notes = {"pressure " + std::to_string(c.plate.pressure_MPa).substr(0, 5) +
                    " MPa on the outboard side"};
  return sketch;
}

}  // namespace felloe
