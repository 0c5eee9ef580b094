// SPDX-License-Identifier: GPL-3.0-or-later
// Weld classes: stress range at 2e6 cycles, 95 % survival, and the shape of their curves.
#include <fmt/format.h>

#include <cmath>

#include "mesher/error.h"
#include "post/sn_curve.h"
#include "solver/nearest_name.h"

namespace felloe {
namespace {

// Slope 3 to 5e6, then 5 down to the cut-off at 1e8.
WeldClass eurocode(double range, const std::string &use) {
  return {fmt::format("EN 1993-1-9 {:g}", range),
          use,
          range,
          5e6,
          3,
          5,
          1e8,
          "EN 1993-1-9:2005, curve of direct stress",
          "from memory, verify"};
}

// Constant amplitude: slope 3 to 1e7, then 22. Rig tests run at constant amplitude.
WeldClass iiw_hot_spot(double range, const std::string &use) {
  return {fmt::format("IIW FAT {:g} hot-spot", range),
          use,
          range,
          1e7,
          3,
          22,
          0,
          "IIW recommendations XIII-2151, structural hot-spot stress, steel",
          "from memory, verify"};
}

std::vector<WeldClass> table() {
  return {
      iiw_hot_spot(90, "structural hot-spot stress: toes of load-carrying fillet welds"),
      iiw_hot_spot(100,
                   "structural hot-spot stress: toes of non-load-carrying fillet welds, butt "
                   "joints, full-penetration cruciform joints"),
      eurocode(71, "nominal stress, detail category 71"),
      eurocode(80, "nominal stress, detail category 80"),
      eurocode(90, "hot-spot stress: cruciform joints with load-carrying fillets"),
      eurocode(100, "hot-spot stress: non-load-carrying fillets, butt joints as welded"),
      eurocode(112, "hot-spot stress: full-penetration butt joints ground flush"),
  };
}

}  // namespace

const std::vector<WeldClass> &weld_classes() {
  static const std::vector<WeldClass> rows = table();
  return rows;
}

const WeldClass &weld_class(const std::string &name) {
  std::vector<std::string> names;
  for (const auto &row : weld_classes()) {
    if (row.name == name) return row;
    names.push_back(row.name);
  }
  throw Error(unknown_name("weld class", name, names));
}

SnCurve weld_curve(const WeldClass &w) {
  SnCurve c;
  c.name = w.name;
  c.knee_amplitude = w.range_at_2e6 * std::pow(2e6 / w.knee_cycles, 1 / w.slope);
  c.knee_cycles = w.knee_cycles;
  c.slope = w.slope;
  c.slope_below = w.slope_below;
  c.cutoff_cycles = w.cutoff_cycles;
  c.survival = 0.95;
  c.log10_life_scatter = 0.2;
  c.scatter_source = "common practice, no source";
  c.stress_range = true;
  c.source = w.source;
  c.confidence = w.confidence;
  c.assumptions = {
      fmt::format("{}: {:g} MPa stress range at 2e6 cycles, 95 % survival ({})", w.name,
                  w.range_at_2e6, w.confidence),
      "weld class: mean stress not counted, as-welded residual stress assumed at yield",
      "weld class: sheet below 5 mm is outside the rules' focus, the result is indicative",
      "scatter: standard deviation 0.2 of log10 life (common practice, no source)"};
  return c;
}

double weld_thickness_factor(double thickness, double exponent) {
  return thickness > 25 ? std::pow(25 / thickness, exponent) : 1.0;
}

}  // namespace felloe
