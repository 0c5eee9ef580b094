// SPDX-License-Identifier: GPL-3.0-or-later
// The rated places, worst first, and what the rating says of them.
#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "post/html/table.h"
#include "post/html/text.h"
#include "post/plot/frame.h"
#include "post/report/sections.h"
#include "post/report/words.h"

namespace felloe {
namespace {

std::string test_cell(const ReportInput &in, const std::string &test) {
  return in.results.tests.empty() ? name_markup(test) : test_markup(in.results, test);
}

std::vector<std::string> row(const ReportInput &in, const HotSpot &h) {
  const bool rated = h.verdict != Verdict::not_rated;
  return {fmt::format("{}. {}, {}", h.id, name_markup(h.feature), html_text(h.side)),
          test_cell(in, h.test),
          verdict_markup(h.verdict),
          fixed_text(h.r, 1),
          fixed_text(h.theta_deg, 1),
          fixed_text(h.z, 1),
          fixed_text(h.amplitude, 0),
          fixed_text(h.mean, 0),
          rated ? fixed_text(h.fully_reversed, 0) : "\u2013",
          h.error_percent < 0 ? "\u2013" : fixed_text(h.error_percent, 1),
          rated ? fixed_text(h.allowed, 0) : "\u2013",
          rated ? fixed_text(100 * utilisation(h), 0) : "\u2013",
          rated ? cycles_words(h.life_p50) : "\u2013",
          rated ? cycles_words(h.life_design) : "\u2013",
          rated ? life_range(h, in.rules.survival) : "\u2013",
          rated ? cycles_words(h.required_cycles) : "\u2013"};
}

/// Every note once, with the numbers of the places that it holds for.
std::string notes(const Results &r) {
  std::vector<std::string> order;
  std::map<std::string, std::vector<int>> of;
  for (const HotSpot &h : r.hot_spots)
    for (const std::string &note : h.notes) {
      if (of[note].empty()) order.push_back(note);
      of[note].push_back(h.id);
    }
  if (order.empty()) return "";
  std::string out = "<h3>What the rating says of single places</h3>\n<ul class=\"remarks\">\n";
  for (const std::string &note : order) {
    std::string numbers;
    for (const int id : of[note]) numbers += (numbers.empty() ? "" : ", ") + std::to_string(id);
    out += fmt::format("<li>No. {}: {}</li>\n", numbers, html_text(note));
  }
  return out + "</ul>\n";
}

/// Which places are rated by which criterion and curve.
std::string rules(const Results &r) {
  std::map<std::pair<std::string, std::string>, std::string> numbers;
  std::vector<std::pair<std::string, std::string>> order;
  for (const HotSpot &h : r.hot_spots) {
    const std::pair<std::string, std::string> rule{h.criterion, h.curve};
    std::string &of_rule = numbers[rule];
    if (of_rule.empty()) order.push_back(rule);
    of_rule += (of_rule.empty() ? "" : ", ") + std::to_string(h.id);
  }
  std::string out = "<h3>How each place is rated</h3>\n<ul>\n";
  for (const auto &rule : order)
    out += fmt::format("<li>No. {}: {}{}{}</li>\n", numbers[rule], html_text(rule.first),
                       rule.second.empty() ? "" : "; S-N curve ", html_text(rule.second));
  return out + "</ul>\n";
}

}  // namespace

std::string hot_spot_section(const ReportInput &in) {
  const Results &r = in.results;
  if (r.hot_spots.empty()) return "";
  HtmlTable t;
  t.id = "hot-spot-table";
  t.caption = fmt::format(
      "Rated places: those that fail, shortest life first, then by the share of the allowed stress "
      "that is used. Amplitude and mean: of the normal "
      "stress that swings most, as a strain gauge sees it. Equal: the fully reversed amplitude "
      "that "
      "the criterion makes of it. Life: at {:g} % survival.",
      r.survival_percent);
  t.columns = {{"Place", "", false},
               {"Rig test", "", false},
               {"Verdict", "", false},
               {"r", "mm", true},
               {"\u03B8", "\u00B0", true},
               {"z", "mm", true},
               {"Ampl.", "MPa", true},
               {"Mean", "MPa", true},
               {"Equal", "MPa", true},
               {"\u00B1", "%", true},
               {"Allowed", "MPa", true},
               {"Used", "%", true},
               {"Life 50\u00A0%", "cycles", true},
               {"Life", "cycles", true},
               {"Range", "cycles", true},
               {"Required", "cycles", true}};
  for (const HotSpot &h : r.hot_spots) t.rows.push_back(row(in, h));
  return "<div class=\"wide-table\">" + html_table(t) + "</div>\n" + rules(r) + notes(r);
}

}  // namespace felloe
