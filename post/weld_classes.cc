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

/// Not to be met by the structural stress at a toe.
WeldClass elsewhere(WeldClass w, WeldStress stress) {
  w.stress = stress;
  w.for_toes = false;
  return w;
}

WeldClass iiw_hot_spot_aluminium(double range, const std::string &use) {
  WeldClass w = iiw_hot_spot(range, use);
  w.name += " aluminium";
  w.source = "IIW recommendations XIII-2151, structural hot-spot stress, aluminium";
  return w;
}

// The stress of a section through the weld whose toe and root are rounded by a fictitious radius.
WeldClass effective_notch(double range, const std::string &radius, const std::string &use,
                          const std::string &stress = "largest principal stress") {
  WeldClass w = elsewhere(iiw_hot_spot(range, use), WeldStress::effective_notch);
  w.name = fmt::format("IIW FAT {:g} notch r {}", range, radius);
  w.source = "IIW recommendations, effective notch stress (" + stress + ")";
  w.thickness_exponent = 0;  // the model contains the thickness
  return w;
}

// Slope 5 to 1e8, no failure beyond.
WeldClass shear(const std::string &name, double range, const std::string &source) {
  WeldClass w{name, "shear stress", range, 1e8, 5, 0, 0, source, "from memory, verify"};
  return elsewhere(w, WeldStress::shear);
}

WeldClass nominal(double range, const std::string &use, bool low_enough) {
  WeldClass w = eurocode(range, "nominal stress, " + use);
  w.stress = WeldStress::nominal;
  w.for_toes = low_enough;
  return w;
}

std::vector<WeldClass> table() {
  return {
      iiw_hot_spot(90,
                   "structural hot-spot stress: toes of load-carrying fillet welds, ends of "
                   "attachments longer than 100 mm on a plate edge"),
      iiw_hot_spot(100,
                   "structural hot-spot stress: toes of non-load-carrying fillet welds, butt "
                   "joints, full-penetration cruciform joints, ends of brackets, stiffeners and "
                   "cover plates, of attachments up to 100 mm on a plate edge"),
      iiw_hot_spot_aluminium(36, "structural hot-spot stress: toes of load-carrying fillet welds"),
      iiw_hot_spot_aluminium(40, "structural hot-spot stress: toes of non-load-carrying welds"),
      nominal(36, "load-carrying fillet weld that cracks through its throat from the root", true),
      nominal(71, "detail category 71", true),
      nominal(80, "detail category 80", true),
      eurocode(90, "hot-spot stress: cruciform joints with load-carrying fillets"),
      eurocode(100, "hot-spot stress: non-load-carrying fillets, butt joints as welded"),
      eurocode(112, "hot-spot stress: full-penetration butt joints ground flush"),
      nominal(125, "thermally cut edge with shallow regular drag lines", false),
      nominal(140, "thermally cut edge, dressed", false),
      nominal(160, "rolled plate as delivered", false),
      effective_notch(225, "1 mm", "effective notch stress, steel, plate of 5 mm and more"),
      effective_notch(200, "1 mm von Mises",
                      "effective notch stress, steel, plate of 5 mm and more", "von Mises stress"),
      effective_notch(71, "1 mm aluminium", "effective notch stress, plate of 5 mm and more"),
      effective_notch(630, "0.05 mm", "effective notch stress, steel sheet below 5 mm"),
      shear("EN 1993-1-9 shear 80", 80, "EN 1993-1-9:2005, curve of shear stress"),
      shear("EN 1993-1-9 shear 100", 100, "EN 1993-1-9:2005, curve of shear stress"),
      shear("IIW FAT 80 shear", 80, "IIW recommendations, fillet welds in shear"),
      shear("IIW FAT 100 shear", 100, "IIW recommendations, parent metal and butt welds in shear"),
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

SnCurve weld_curve(const WeldClass &w, double thickness) {
  SnCurve c;
  c.name = w.name;
  const double thick = weld_thickness_factor(thickness, w.thickness_exponent);
  c.knee_amplitude = thick * w.range_at_2e6 * std::pow(2e6 / w.knee_cycles, 1 / w.slope);
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
      fmt::format("weld class: thickness factor {:.3f} (above 25 mm (25 / t)^{:g}, IIW)", thick,
                  w.thickness_exponent),
      "weld class: sheet below 5 mm is outside the rules' focus, the result is indicative",
      "scatter: standard deviation 0.2 of log10 life (common practice, no source)"};
  return c;
}

double weld_thickness_factor(double thickness, double exponent) {
  return thickness > 25 ? std::pow(25 / thickness, exponent) : 1.0;
}

}  // namespace felloe
