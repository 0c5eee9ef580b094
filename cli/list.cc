// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/list.h"

#include <algorithm>

#include "cli/case_file.h"
#include "cli/case_keys.h"
#include "cli/nearest.h"
#include "mesher/error.h"
#include "mesher/rim_contour.h"
#include "post/bending_torsion_tests.h"
#include "post/criteria.h"
#include "post/surface_state.h"

namespace felloe {
namespace {

/// One row as it is printed: name, its numbers, what it is, where it comes from.
struct Row {
  std::string name, figures, summary, source, confidence;
};

/// Words joined into lines of at most 98 characters, each indented.
std::string wrapped(const std::string &text, std::size_t indent) {
  std::string out, line;
  for (std::size_t at = 0; at < text.size();) {
    const auto end = std::min(text.find(' ', at), text.size());
    const std::string word = text.substr(at, end - at);
    if (!line.empty() && indent + line.size() + 1 + word.size() > 98) {
      out += std::string(indent, ' ') + line + "\n";
      line.clear();
    }
    line += (line.empty() ? "" : " ") + word;
    at = end + 1;
  }
  return line.empty() ? out : out + std::string(indent, ' ') + line + "\n";
}

std::string printed(const std::string &title, const std::vector<Row> &rows) {
  std::string text = title + "\n";
  for (const auto &row : rows) {
    text += "\n  " + row.name + "\n";
    text += wrapped(row.summary, 6) + wrapped(row.figures, 6);
    if (!row.source.empty() || !row.confidence.empty())
      text += wrapped("source: " + (row.source.empty() ? "none given" : row.source) +
                          (row.confidence.empty() ? "" : " (confidence: " + row.confidence + ")"),
                      6);
  }
  return text;
}

std::string figure(const std::string &name, double value, const std::string &unit = "") {
  return name + " " + plain_number(value) + (unit.empty() ? "" : " " + unit);
}

std::string joined(const std::vector<std::string> &parts) {
  std::string text;
  for (const auto &p : parts) text += (text.empty() ? "" : ", ") + p;
  return text;
}

std::string material_list() {
  std::vector<Row> rows;
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
  return printed("Materials: [materials] disc, rim, weld", rows);
}

/// 0 stands for no limit.
std::string diameter_codes(const RimContour &c) {
  std::string text = "diameter codes";
  if (c.smallest_diameter_code == 0 && c.largest_diameter_code == 0) return "any diameter code";
  if (c.smallest_diameter_code > 0) text += " from " + plain_number(c.smallest_diameter_code);
  if (c.largest_diameter_code > 0) text += " to " + plain_number(c.largest_diameter_code);
  return text;
}

std::string contour_list() {
  std::vector<Row> rows;
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
  return printed("Rim contours: [rim] contour", rows);
}

std::string load_list() {
  std::vector<Row> rows;
  for (const auto &k : load_kinds()) {
    std::vector<std::string> parameters;
    for (const auto &p : k.parameters)
      parameters.push_back(p.key + " (" + p.summary + ", " + plain_number(p.smallest) + " to " +
                           plain_number(p.largest) + (p.unit == "-" ? "" : " " + p.unit) +
                           (p.required ? ", required" : ", default " + plain_number(p.standard)) +
                           ")");
    rows.push_back({k.name, joined(parameters), k.summary, k.source, k.confidence});
  }
  return printed("Loads", rows);
}

std::string test_list() {
  std::vector<Row> rows;
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
  return printed("Rig tests: [[rig_test]] row", rows);
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

std::string criterion_list() {
  std::vector<Row> rows;
  for (const auto &c : fatigue_criteria())
    rows.push_back({c.name + (&c == &default_criterion() ? "  (default)" : ""),
                    "error on published bending-torsion tests, negative: unsafe; " +
                        errors(c, false) + "; " + errors(c, true),
                    c.summary, c.source, c.confidence});
  std::string text = printed("Fatigue criteria: [rating] criterion", rows);
  text += "\n" + wrapped(why_default_criterion(), 2) + "\n" +
          wrapped("The tests (endurance limits of round bars):", 2);
  for (const auto &series : bending_torsion_series())
    text += wrapped(series.name + ", " + plain_number(double(series.tests.size())) +
                        " tests: " + series.source + " (" + series.confidence + ")",
                    6);
  return text;
}

std::string edge_list() {
  std::vector<Row> edges, finishes;
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
  return printed("Edges: [rating] vent_edges, bolt_edges; factors on the fatigue limit", edges) +
         "\n" + printed("Finishes: [rating] surface", finishes);
}

std::string mean_stress_list() {
  std::vector<Row> rows;
  for (const auto &r : mean_stress_rules())
    rows.push_back({r.name, "", r.summary, r.source, r.confidence});
  return printed("Mean-stress rules: [rating] mean_stress, for criteria of normal stress", rows);
}

std::string weld_class_list() {
  std::vector<Row> rows;
  for (const auto &w : weld_classes()) {
    std::vector<std::string> figures = {figure("stress range at 2e6 cycles", w.range_at_2e6, "MPa"),
                                        figure("slope", w.slope),
                                        figure("knee at", w.knee_cycles, "cycles")};
    if (w.slope_below > 0) figures.push_back(figure("slope beyond", w.slope_below));
    if (w.cutoff_cycles > 0) figures.push_back(figure("cut-off at", w.cutoff_cycles, "cycles"));
    if (!w.for_toes) figures.push_back("not for the structural stress at toes");
    rows.push_back({w.name, joined(figures), w.summary, w.source, w.confidence});
  }
  return printed("Weld classes: [rating] weld_class", rows);
}

std::string key_list() {
  std::string text = "Keys of a case file\n";
  for (const auto &s : case_sections()) {
    const std::string name = s.path.empty() ? "top of the file"
                             : s.repeated() ? "[[" + s.path + "]]"
                                            : "[" + s.path + "]";
    text += "\n" + name +
            (s.applies == AppliesTo::welded_disc ? "  (welded disc only)"
             : s.applies == AppliesTo::disc_only ? "  (disc only)"
                                                 : "") +
            (s.required ? "" : "  optional") + "\n" + wrapped(s.summary, 2);
    for (const auto &k : s.keys) {
      const std::string need = k.need == Need::required      ? "required"
                               : k.need == Need::has_default ? "default " + toml_text(k.standard)
                                                             : "optional";
      text += "    " + k.name + "  (" + to_text(k.domain.type) + ", " + need + ")\n";
      text += wrapped(k.summary, 8);
      if (k.domain.type != KeyType::text && k.domain.type != KeyType::yes_no)
        text += wrapped("accepted: " + accepted(k.domain), 8);
    }
  }
  return text;
}

struct Topic {
  std::string name;
  std::string (*text)();
};

const std::vector<Topic> &topics() {
  static const std::vector<Topic> all = {
      {"materials", material_list}, {"contours", contour_list},
      {"loads", load_list},         {"tests", test_list},
      {"criteria", criterion_list}, {"mean-stress", mean_stress_list},
      {"edges", edge_list},         {"weld-classes", weld_class_list},
      {"keys", key_list},           {"schema", case_schema}};
  return all;
}

}  // namespace

const std::vector<std::string> &list_topics() {
  static const std::vector<std::string> names = [] {
    std::vector<std::string> n;
    for (const auto &t : topics()) n.push_back(t.name);
    return n;
  }();
  return names;
}

std::string list_text(const std::string &topic) {
  std::string text;
  for (const auto &t : topics()) {
    if (topic == t.name) return t.text();
    if (topic.empty() && t.name != "schema" && t.name != "keys")
      text += (text.empty() ? "" : "\n") + t.text();
  }
  if (!topic.empty())
    throw Error("list: " + topic + ": unknown table" + did_you_mean(topic, list_topics()) +
                " (known: " + listed(list_topics()) + ")");
  return text;
}

}  // namespace felloe
