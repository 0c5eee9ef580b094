// SPDX-License-Identifier: GPL-3.0-or-later
// Source and confidence of every factor, from the tables that they stand in.
#include <fmt/format.h>

#include "cli/report_input.h"
#include "cli/test_turns.h"
#include "mesher/rim_contour.h"
#include "post/surface_state.h"
#include "solver/load_kinds.h"

namespace felloe {
namespace {

std::string or_case(const std::string &text, const char *otherwise) {
  return text.empty() ? otherwise : text;
}

std::string test_value(const RigTest &t, const Case &c) {
  const double cycles = required_cycles(t, rated_load_of(c));
  if (t.kind == RigTestKind::radial)
    return fmt::format("load factor K {:g}, {:.3g} cycles", t.load_factor, cycles);
  return fmt::format("friction {:g}, load factor S {:g}{}, {:.3g} cycles", t.friction,
                     t.load_factor,
                     t.load_share == 1 ? "" : fmt::format(", share {:g}", t.load_share), cycles);
}

Provenance material(const char *part, const Material &m) {
  return {fmt::format("{} material {}", part, m.name),
          fmt::format("E {:g} GPa, \u03BD {:g}, Re {:g}, Rm {:g} MPa", 1e-3 * m.youngs_modulus,
                      m.poissons_ratio, m.yield_strength, m.tensile_strength),
          or_case(m.source, "the case"), or_case(m.confidence, "given by the case")};
}

Provenance curve(const SnCurve &sn) {
  return {"S-N curve " + sn.name,
          fmt::format("{} {:.4g} MPa at {:.3g} cycles, slope {:g}, survival {:g} %",
                      sn.stress_range ? "range" : "amplitude", sn.knee_amplitude, sn.knee_cycles,
                      sn.slope, 100 * sn.survival),
          or_case(sn.source, "the case"), or_case(sn.confidence, "given by the case")};
}

void add_surface(const RatingRules &rules, const Case &c, std::vector<Provenance> &all) {
  const auto edge = [&](const char *place, const std::string &name) {
    const EdgeFinish &e = edge_finish(name);
    const bool own =
        name == "sheared" && rules.sheared_edge_factor > 0 && rules.sheared_edge_factor != e.factor;
    all.push_back({fmt::format("{} edges, {}", place, name),
                   fmt::format("factor {:g} on the fatigue limit (range {:g} to {:g})",
                               own ? rules.sheared_edge_factor : e.factor, e.lowest, e.highest),
                   own ? "the case" : e.source, own ? "given by the case" : e.confidence});
  };
  if (c.wheel.vents.count > 0 && !rules.own_curves.count(Surface::vent_edge))
    edge("vent hole", rules.vent_edges);
  if (c.wheel.bolts.count > 0 && !rules.own_curves.count(Surface::bolt_edge))
    edge("bolt hole", rules.bolt_edges);
  const SurfaceFinish &finish = surface_finish(rules.surface);
  all.push_back({"sheet surface, " + finish.name,
                 fmt::format("factor {:g} on the fatigue limit", finish.factor), finish.source,
                 finish.confidence});
}

void add_loads(const Case &c, std::vector<Provenance> &all) {
  const auto row = [&](const char *kind, const std::string &value) {
    for (const LoadKind &k : load_kinds())
      if (k.name == kind) all.push_back({k.name, value, k.source, k.confidence});
  };
  if (c.wheel.bolts.count > 0 && c.clamp.preload_N > 0)
    all.push_back({"bolt clamp", fmt::format("{:.0f} N a bolt", c.clamp.preload_N), "the case",
                   "given by the case"});
  else if (c.wheel.bolts.count > 0)
    row("bolt clamp",
        fmt::format("{:.0f} N a bolt from {:g} N m, friction {:g} and {:g}", bolt_preload_of(c),
                    c.clamp.torque_Nm, c.clamp.thread_friction, c.clamp.seat_friction));
  if (c.press_fit.interference_mm > 0)
    row("press fit", fmt::format("{:g} mm on diameter", c.press_fit.interference_mm));
  if (c.tyre.inflation_kPa > 0) row("inflation", fmt::format("{:g} kPa", c.tyre.inflation_kPa));
  row("radial load", fmt::format("half angle {:g}\u00B0", c.radial.half_angle_deg));
  row("cornering moment", "turning moment on the hub, rim held");
}

}  // namespace

std::vector<Provenance> factors_of(const Case &c) {
  std::vector<Provenance> all;
  if (c.wheel.construction != Construction::welded_disc) return {material("disc", c.disc_material)};
  const RatingRules rules = rating_rules(c);
  for (const RigTest &t : c.tests)
    all.push_back({"rig test " + t.name, test_value(t, c), or_case(t.source, "the case"),
                   or_case(t.confidence, "given by the case")});
  all.push_back(material("disc", c.disc_material));
  all.push_back(material("rim", c.rim_material));
  all.push_back(material("weld", c.weld_material));
  std::string scatter_source;
  for (const auto &[surface, part] : {std::pair(Surface::parent, Part::disc),
                                      {Surface::parent, Part::rim},
                                      {Surface::vent_edge, Part::disc},
                                      {Surface::bolt_edge, Part::disc},
                                      {Surface::weld_toe, Part::disc}}) {
    const SnCurve sn = curve_for(rules, surface, part);
    all.push_back(curve(sn));
    if (sn.scatter_source != scatter_source && sn.log10_life_scatter > 0) {
      scatter_source = sn.scatter_source;
      all.push_back({"scatter of life, " + sn.name,
                     fmt::format("standard deviation {:g} of log10 life", sn.log10_life_scatter),
                     or_case(sn.scatter_source, "the case"),
                     or_case(sn.scatter_source, "given by the case")});
    }
  }
  add_surface(rules, c, all);
  all.push_back({"criterion " + rules.criterion->name, rules.criterion->summary,
                 rules.criterion->source, rules.criterion->confidence});
  if (rules.criterion->takes_mean_stress_rule)
    all.push_back({"mean stress rule " + rules.mean_stress->name, rules.mean_stress->summary,
                   rules.mean_stress->source, rules.mean_stress->confidence});
  add_loads(c, all);
  for (const RimContour &contour : rim_contours())
    if (contour.name == c.wheel.rim.contour)
      all.push_back(
          {"rim contour " + contour.name, contour.summary, contour.source, contour.confidence});
  return all;
}

}  // namespace felloe
