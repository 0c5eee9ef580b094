// SPDX-License-Identifier: GPL-3.0-or-later
// Rig-test programmes. Numbers that nobody could confirm are not in the table.
#include "post/rig_tests.h"

#include <cassert>
#include <cmath>

#include "mesher/error.h"
#include "mesher/vec3.h"
#include "solver/nearest_name.h"

namespace felloe {
namespace {

const char *second_hand = "second-hand, verify";

RigTest j328(const std::string &name, const std::string &summary, double factor, double cycles) {
  return {"bending J328 " + name,
          "SAE J328 rotating bending, " + summary,
          RigTestKind::rotating_bending,
          0.7,
          factor,
          1,
          false,
          cycles,
          0,
          "SAE J328 (2021), summary of a test laboratory",
          second_hand};
}

RigTest j267(const std::string &name, double factor, double cycles) {
  RigTest test{
      "bending J267 " + name,
      "SAE J267 rotating bending of truck and bus wheels, ferrous, inset below 4 in, cycles for "
      "7 samples",
      RigTestKind::rotating_bending,
      0.7,
      factor,
      1,
      false,
      cycles,
      0,
      "SAE J267 (2021), summary of a test laboratory",
      second_hand};
  test.wheels = 7;
  test.cycles_for_seven = true;
  return test;
}

RigTest j1204(const std::string &name, const std::string &summary, double factor, double cycles) {
  return {"bending J1204 " + name,
          "SAE J1204 rotating bending of light trailer wheels, " + summary,
          RigTestKind::rotating_bending,
          0.7,
          factor,
          1,
          false,
          cycles,
          0,
          "SAE J1204 (2023), summary of a test laboratory; friction 0.7 from memory",
          "factor and cycles second-hand, verify; friction from memory, verify"};
}

RigTest r124(const std::string &name, const std::string &summary, double share, double cycles) {
  RigTest test{
      "bending R124 " + name,
      "UN R124 rotating bending, " + summary,
      RigTestKind::rotating_bending,
      0.9,
      2.0,
      share,
      true,
      cycles,
      0,
      "cycles and levels: test laboratory's page on the German guideline for special wheels, "
      "equal to UN R124 from memory; moment formula, friction 0.9 and factor 2.0 from memory",
      "cycles found; friction, factor from memory, verify"};
  test.wheels = 2;
  test.failure =
      "technical crack, loss of a fastener's torque over 30 % (found), growth of the arm's "
      "deflection (limit not confirmed)";
  return test;
}

RigTest r124_radial(const std::string &name, const std::string &summary, double factor, double km) {
  return {
      "radial R124 " + name,
      "UN R124 rolling test, " + summary,
      RigTestKind::radial,
      0,
      factor,
      1,
      true,
      0,
      km,
      "test laboratory's page on the German guideline for special wheels, equal to UN R124 from "
      "memory",
      "found"};
}

std::vector<RigTest> table() {
  return {
      j328("front ferrous", "front wheel, ferrous", 1.60, 18000),
      j328("rear ferrous", "rear wheel, ferrous", 1.45, 18000),
      j328("front sheet aluminium", "front wheel, cold-formed aluminium", 1.80, 50000),
      j328("rear sheet aluminium", "rear wheel, cold-formed aluminium", 1.55, 50000),
      j328("front cast or forged aluminium", "front wheel, cast or forged aluminium", 2.00, 50000),
      j328("rear cast or forged aluminium", "rear wheel, cast or forged aluminium", 1.75, 50000),
      j328("front ferrous temporary", "front, ferrous temporary-use spare", 1.60, 9000),
      j328("rear ferrous temporary", "rear, ferrous temporary-use spare", 1.45, 9000),
      j267("1.45", 1.45, 30000),
      j267("1.60", 1.60, 18000),
      j1204("ferrous", "ferrous", 1.45, 18000),
      j1204("aluminium 50 000", "aluminium, short alternative", 1.75, 50000),
      j1204("aluminium 80 000", "aluminium, middle alternative", 1.40, 80000),
      j1204("aluminium 250 000", "aluminium, long alternative", 1.20, 250000),
      r124("75 %", "car, steel, upper level", 0.75, 6.0e4),
      r124("50 %", "car, steel, lower level", 0.50, 6.0e5),
      r124("75 % light alloy", "car, aluminium or magnesium, upper level", 0.75, 2.0e5),
      r124("50 % light alloy", "car, aluminium or magnesium, lower level", 0.50, 1.8e6),
      r124("75 % trailer", "trailer, steel, upper level", 0.75, 2.0e4),
      r124("50 % trailer", "trailer, steel, lower level", 0.50, 2.3e5),
      r124("75 % trailer light alloy", "trailer, aluminium or magnesium, upper level", 0.75, 6.6e4),
      r124("50 % trailer light alloy", "trailer, aluminium or magnesium, lower level", 0.50, 6.9e5),
      r124_radial("steel disc", "car, steel disc wheel", 2.25, 1000),
      r124_radial("light alloy", "car, every other wheel", 2.5, 2000),
      r124_radial("trailer", "trailer (distance by reading of the table)", 2.0, 2000),
  };
}

}  // namespace

const std::vector<RigTest> &rig_tests() {
  static const std::vector<RigTest> rows = table();
  return rows;
}

const RigTest &rig_test(const std::string &name) {
  std::vector<std::string> names;
  for (const auto &row : rig_tests()) {
    if (row.name == name) return row;
    names.push_back(row.name);
  }
  throw Error(unknown_name("rig test", name, names));
}

double bending_moment(const RigTest &test, const RatedLoad &load) {
  const double radius = test.dynamic_radius ? load.tyre_dynamic_radius : load.tyre_static_radius;
  return load.load_kg * standard_gravity * (test.friction * radius + load.inset) *
         test.load_factor * test.load_share;
}

double radial_force(const RigTest &test, const RatedLoad &load) {
  return load.load_kg * standard_gravity * test.load_factor * test.load_share;
}

double required_cycles(const RigTest &test, const RatedLoad &load) {
  if (test.cycles > 0)
    return test.cycles_for_seven ? sample_size_cycles(test.cycles, test.wheels) : test.cycles;
  if (!(load.tyre_dynamic_radius > 0))
    throw Error("rig test '" + test.name +
                "': no rolling radius: its distance cannot be turned into cycles; give the tyre's "
                "dynamic radius in mm");
  return test.distance_km * 1e6 / (2 * pi * load.tyre_dynamic_radius);
}

std::string failure_criterion(const RigTest &test) {
  return test.failure.empty() ? "crack" : test.failure;
}

double all_pass(double survival, int wheels) { return std::pow(survival, wheels); }

double impact_striker_mass(double load_kg) { return 0.6 * load_kg + 180; }

double sample_size_cycles(double cycles_for_seven, int wheels) {
  assert(wheels > 0);
  const double thousands = cycles_for_seven * std::sqrt(7.0 / wheels) / 1000;
  return 1000 * std::ceil(thousands * (1 - 1e-12));  // 7 wheels: exactly the given cycles
}

}  // namespace felloe
