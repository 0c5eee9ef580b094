// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/list_tables.h"

#include "cli/case_keys.h"
#include "mesher/rim_contour.h"
#include "post/bending_torsion_tests.h"
#include "post/criteria.h"
#include "post/local_strain.h"
#include "post/mean_stress.h"
#include "post/notch_support.h"
#include "post/rig_tests.h"
#include "post/surface_state.h"
#include "post/weld_extrapolation.h"
#include "post/weld_residual_stress.h"
#include "solver/load_kinds.h"

namespace felloe {
namespace {

std::string figure(const std::string &name, double value, const std::string &unit = "") {
  return name + " " + plain_number(value) + (unit.empty() ? "" : " " + unit);
}

std::string joined(const std::vector<std::string> &parts) {
  std::string text;
  for (const auto &p : parts) text += (text.empty() ? "" : ", ") + p;
  return text;
}

std::vector<ListTable> material_list() {
  std::vector<ListRow> rows;
  for (Material m : materials()) {
    // 1e9 kg/mm3 are a kg/m3: print the digits that were meant.
    char density[40];
    std::snprintf(density, sizeof density, "density %.6g kg/m3", m.density * 1e9);
    rows.push_back({m.name,
                    joined({figure("E", m.youngs_modulus, "MPa"), figure("nu", m.poissons_ratio),
                            density, figure("yield", m.yield_strength, "MPa"),
                            figure("tensile", m.tensile_strength, "MPa")}),
                    m.summary, m.source, m.confidence});
  }
  return {{"Materials: [materials] disc, rim, weld", rows, {}}};
}

/// 0 stands for no limit.
std::string diameter_codes(const RimContour &c) {
  std::string text = "diameter codes";
  if (c.smallest_diameter_code == 0 && c.largest_diameter_code == 0) return "any diameter code";
  if (c.smallest_diameter_code > 0) text += " from " + plain_number(c.smallest_diameter_code);
  if (c.largest_diameter_code > 0) text += " to " + plain_number(c.largest_diameter_code);
  return text;
}

std::vector<ListTable> contour_list() {
  std::vector<ListRow> rows;
  for (const auto &c : rim_contours())
    rows.push_back(
        {c.name,
         joined({"width codes from " + plain_number(c.smallest_width_code), diameter_codes(c),
                 figure("flange width", c.flange_width, "mm"),
                 figure("flange height", c.flange_height, "mm"),
                 figure("flange radius", c.flange_radius, "mm"),
                 figure("seat width", c.seat_width, "mm"), figure("well depth", c.well_depth, "mm"),
                 figure("well width", c.well_width, "mm"),
                 figure("well position", c.well_position, "mm")}),
         c.summary, c.source, c.confidence});
  return {{"Rim contours: [rim] contour", rows, {}}};
}

std::vector<ListTable> load_list() {
  std::vector<ListRow> rows;
  for (const auto &k : load_kinds()) {
    std::vector<std::string> parameters;
    for (const auto &p : k.parameters)
      parameters.push_back(p.key + " (" + p.summary + ", " + plain_number(p.smallest) + " to " +
                           plain_number(p.largest) + (p.unit == "-" ? "" : " " + p.unit) +
                           (p.required ? ", required" : ", default " + plain_number(p.standard)) +
                           ")");
    rows.push_back({k.name, joined(parameters), k.summary, k.source, k.confidence});
  }
  return {{"Loads", rows, {}}};
}

std::vector<ListTable> test_list() {
  std::vector<ListRow> rows;
  for (const auto &t : rig_tests()) {
    std::vector<std::string> figures = {
        t.kind == RigTestKind::radial ? "radial" : "rotating bending",
        figure("load factor", t.load_factor)};
    if (t.friction > 0) figures.push_back(figure("friction", t.friction));
    if (t.load_share != 1) figures.push_back(figure("load share", t.load_share));
    if (t.dynamic_radius) figures.push_back("with the rolling radius");
    if (t.cycles > 0) figures.push_back(plain_number(t.cycles) + " cycles");
    if (t.cycles_for_seven)
      figures.push_back("for seven wheels, longer for fewer");
    else if (t.wheels > 1)
      figures.push_back(plain_number(t.wheels) + " wheels");
    if (t.distance_km > 0) figures.push_back(plain_number(t.distance_km) + " km");
    rows.push_back({t.name, joined(figures), t.summary, t.source, t.confidence});
  }
  return {{"Rig tests: [[rig_test]] row", rows, {}}};
}

std::string errors(const FatigueCriterion &c, bool with_static_stress) {
  const CriterionErrors e = errors_on_published_tests(c, with_static_stress);
  char text[200];
  std::snprintf(text, sizeof text,
                "%s static stress (%d tests): mean %+.1f %%, scatter %.1f %%, %+.1f to %+.1f %%",
                with_static_stress ? "with" : "without", e.n, e.mean, e.scatter, e.lowest,
                e.highest);
  return text;
}

std::vector<ListTable> criterion_list() {
  std::vector<ListRow> rows;
  for (const auto &c : fatigue_criteria())
    rows.push_back({c.name,
                    "error on published bending-torsion tests, negative: unsafe; " +
                        errors(c, false) + "; " + errors(c, true),
                    c.summary, c.source, c.confidence, &c == &default_criterion()});
  std::vector<std::string> remarks = {why_default_criterion(),
                                      "The tests (endurance limits of round bars):"};
  for (const auto &series : bending_torsion_series())
    remarks.push_back(series.name + ", " + plain_number(double(series.tests.size())) +
                      " tests: " + series.source + " (confidence: " + series.confidence + ")");
  return {{"Fatigue criteria: [rating] criterion", rows, remarks}};
}

std::vector<ListTable> edge_list() {
  std::vector<ListRow> edges, finishes;
  for (const auto &e : edge_finishes())
    edges.push_back(
        {e.name,
         joined({figure("factor", e.factor), figure("away from the burr", e.entry_factor),
                 figure("range", e.lowest) + " to " + plain_number(e.highest)}),
         e.summary, e.source, e.confidence});
  for (const auto &f : surface_finishes())
    finishes.push_back({f.name,
                        joined({figure("factor", f.factor),
                                figure("range", f.lowest) + " to " + plain_number(f.highest)}),
                        f.summary, f.source, f.confidence});
  return {{"Edges: [rating] vent_edges, bolt_edges; factors on the fatigue limit", edges, {}},
          {"Finishes: [rating] surface", finishes, {}}};
}

std::vector<ListTable> mean_stress_list() {
  std::vector<ListRow> rows;
  for (const auto &r : mean_stress_rules())
    rows.push_back(
        {r.name, "", r.summary, r.source, r.confidence, &r == &default_mean_stress_rule()});
  return {{"Mean-stress rules: [rating] mean_stress, for criteria of normal stress", rows, {}}};
}

std::vector<ListTable> estimate_list() {
  std::vector<ListRow> local, support;
  for (const auto &e : cyclic_estimates())
    local.push_back({e.name, "", e.summary, e.source, e.confidence});
  for (const auto &s : support_rules())
    support.push_back({s.name, "", s.summary, s.source, s.confidence});
  return {
      {"Cyclic constants from the tensile strength, for the local strain above yield", local, {}},
      {"Notch support: [rating] notch_support", support, {}}};
}

std::vector<ListTable> weld_class_list() {
  std::vector<ListRow> rows;
  for (const auto &w : weld_classes()) {
    std::vector<std::string> figures = {figure("stress range at 2e6 cycles", w.range_at_2e6, "MPa"),
                                        figure("slope", w.slope),
                                        figure("knee at", w.knee_cycles, "cycles")};
    if (w.slope_below > 0) figures.push_back(figure("slope beyond", w.slope_below));
    if (w.cutoff_cycles > 0) figures.push_back(figure("cut-off at", w.cutoff_cycles, "cycles"));
    if (!w.for_toes) figures.push_back("not for the structural stress at toes");
    rows.push_back({w.name, joined(figures), w.summary, w.source, w.confidence});
  }
  return {{"Weld classes: [rating] weld_class", rows, {}}};
}

std::vector<ListTable> weld_toe_list() {
  std::vector<ListRow> read_outs, residual;
  for (const auto &r : toe_read_outs()) {
    std::vector<std::string> at;
    for (const double d : r.distances)
      at.push_back(plain_number(d) + (r.times_thickness ? " t" : " mm"));
    read_outs.push_back({r.name, "read at " + joined(at), r.summary, r.source, r.confidence,
                         &r == &toe_read_outs().front()});
  }
  for (const auto &r : weld_residual_stresses())
    residual.push_back(
        {r.name, "", r.summary, r.source, r.confidence, &r == &weld_residual_stresses().front()});
  return {{"Read-outs of the structural stress at weld toes: [rating] toe_read_out", read_outs, {}},
          {"Residual stress at welds: [rating] weld_residual_stress", residual, {}}};
}

}  // namespace

const std::vector<ListTopic> &list_tables() {
  static const std::vector<ListTopic> all = {
      {"materials", "grades for [materials]", material_list},
      {"contours", "rim contours for [rim] contour", contour_list},
      {"loads", "kinds of loads", load_list},
      {"tests", "rig tests for [[rig_test]] row", test_list},
      {"criteria", "fatigue criteria for [rating] criterion, with their errors on published tests",
       criterion_list},
      {"mean-stress", "rules for [rating] mean_stress", mean_stress_list},
      {"edges", "edges for [rating] vent_edges, bolt_edges; finishes for [rating] surface",
       edge_list},
      {"weld-classes", "S-N classes for [rating] weld_class", weld_class_list},
      {"weld-toes", "read-outs for [rating] toe_read_out; rows for weld_residual_stress",
       weld_toe_list},
      {"estimates", "cyclic constants and notch support that hot spots are told with",
       estimate_list}};
  return all;
}

}  // namespace felloe
