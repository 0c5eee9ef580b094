// SPDX-License-Identifier: GPL-3.0-or-later
// What the script of a sweep's page shows of one design.
#include <algorithm>
#include <cmath>
#include <map>
#include <nlohmann/json.hpp>

#include "cli/case_file.h"
#include "cli/sweep/sweep_page.h"
#include "cli/sweep/sweep_report.h"
#include "mesher/error.h"
#include "post/html/digest.h"
#include "post/html/text.h"
#include "post/section_drawing.h"

namespace felloe {
namespace {

using nlohmann::ordered_json;

/// Drawings in base64 by place in the list; what cannot be laid out has none.
std::map<std::size_t, std::string> drawings(const SweepHead &head, const Designs &designs,
                                            const SweepPageSource &source) {
  std::vector<std::size_t> order = lightest(head, designs, 10);
  for (const std::size_t i : pareto_front(head, designs)) order.push_back(i);
  for (std::size_t i = 0; i < designs.size(); ++i) order.push_back(i);
  std::map<std::size_t, std::string> all;
  std::size_t bytes = 0;
  for (const std::size_t i : order) {
    if (all.count(i) != 0) continue;
    try {
      const Case c = read_case_text(source.case_text(designs[i].id), "design");
      std::string drawing = base64(section_drawing(layout(c.wheel)));
      bytes += drawing.size();
      if (bytes > most_drawing_bytes) break;
      all.emplace(i, std::move(drawing));
    } catch (const Error &) {  // its failure says why
    }
  }
  return all;
}

ordered_json number(double x) { return std::isfinite(x) ? ordered_json(x) : ordered_json(); }

ordered_json json_of(const TestFigures &t) {
  const bool rated = t.required_cycles > 0;
  return {{"test", plain_text(t.test)},
          {"feature", plain_text(t.feature)},
          {"stress", number(t.stress_MPa)},
          {"allowed", number(t.allowed_stress_MPa)},
          {"life", rated ? number(t.life_design) : ordered_json()},
          {"noCrack", rated && std::isinf(t.life_design)},
          {"required", rated ? number(t.required_cycles) : ordered_json()},
          {"verdict", to_string(t.verdict)}};
}

bool needs_quotes(const std::string &text) {
  return text.empty() || text[0] == '-' ||
         !std::all_of(text.begin(), text.end(), [](unsigned char c) {
           return std::isalnum(c) || c == '/' || c == '.' || c == '_' || c == '-' || c == '+';
         });
}

std::string quoted(const std::string &text) {
  if (!needs_quotes(text)) return text;
  std::string out = "'";
  for (const char c : text) out += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return out + "'";
}

}  // namespace

std::string command_of_design(const std::string &folder, const std::string &design) {
  return "felloe sweep " + quoted(folder) + " --design " + design + " -o design-" + design +
         ".toml && felloe run design-" + design + ".toml -o design-" + design;
}

std::string sweep_page_data(const SweepHead &head, const Designs &designs,
                            const SweepPageSource &source) {
  const auto drawn = drawings(head, designs, source);
  ordered_json all = ordered_json::array();
  for (std::size_t i = 0; i < designs.size(); ++i) {
    const StoredDesign &d = designs[i];
    ordered_json j = {
        {"id", d.id},
        {"reason", plain_text(d.reason)},
        {"hash", plain_text(d.input_hash)},
        {"version", plain_text(d.version)},
        {"command", plain_text(command_of_design(source.folder, std::to_string(d.id)))}};
    for (const Value &v : d.values) j["values"].push_back(plain_text(plain_text(v)));
    for (const TestFigures &t : d.figures.tests)
      if (d.complete()) j["tests"].push_back(json_of(t));
    const auto found = drawn.find(i);
    if (found != drawn.end()) j["drawing"] = found->second;
    all.push_back(std::move(j));
  }
  ordered_json keys = ordered_json::array();
  for (const std::string &key : head.keys) keys.push_back(plain_text(key));
  const std::string text = ordered_json{{"keys", keys}, {"designs", all}}.dump(
      -1, ' ', false, ordered_json::error_handler_t::replace);
  // nothing in it may look like markup
  std::string safe;
  for (const char c : text)
    safe += c == '<' ? "\\u003c" : c == '>' ? "\\u003e" : c == '&' ? "\\u0026" : std::string(1, c);
  return safe;
}

}  // namespace felloe
