// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sweep/sweep_page.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <set>

#include "cli/sweep/sweep_pictures.h"
#include "cli/sweep/sweep_report.h"
#include "post/html/digest.h"
#include "post/html/page.h"
#include "post/html/table.h"
#include "post/html/text.h"

namespace felloe {
namespace {

std::string figure(double x, const char *format = "%.4g") {
  if (!std::isfinite(x)) return {};
  char text[40];
  std::snprintf(text, sizeof text, format, x);
  return text;
}

std::string link_to(long design) {
  const std::string n = std::to_string(design);
  return "<a href=\"#design-" + n + "\">" + n + "</a>";
}

std::string value_text(const Value &v) {
  const auto *x = std::get_if<double>(&v);
  return x ? figure(*x, "%.6g") : html_text(plain_text(v));
}

std::string life_text(const StoredDesign &d) {
  if (!d.has_lives()) return {};
  return std::isinf(d.life_margin()) ? "no crack" : figure(d.life_margin(), "%.3g");
}

std::string state_class(const StoredDesign &d) {
  if (d.state == JobState::failed) return "is-failed";
  if (!d.complete()) return "is-open";
  return d.figures.verdict == Verdict::pass   ? "is-pass"
         : d.figures.verdict == Verdict::fail ? "is-fail"
                                              : "is-unrated";
}

std::string state_text(const StoredDesign &d) {
  const std::string c = state_class(d);
  if (c == "is-pass") return "<span class=\"word-pass\">pass</span>";
  if (c == "is-fail") return "<span class=\"word-fail\">fail</span>";
  if (c == "is-failed") return "<span class=\"word-not-rated\">not computed</span>";
  return c == "is-open" ? "still to do" : "not rated";
}

/// The rig test that uses most of its allowed stress, and its place.
std::string worst_place(const StoredDesign &d) {
  const TestFigures *worst = nullptr;
  for (const TestFigures &t : d.figures.tests)
    if (!worst || stress_margin(t) < stress_margin(*worst)) worst = &t;
  return worst ? html_text(worst->test + ": " + worst->feature) : "";
}

std::string head_block(const SweepHead &head, const Designs &designs,
                       const SweepPageSource &source) {
  long done = 0, failed = 0, passed = 0;
  for (const StoredDesign &d : designs) {
    done += d.state == JobState::done;
    failed += d.state == JobState::failed;
  }
  for (const std::size_t i : computed(head, designs))
    passed += designs[i].figures.verdict == Verdict::pass;
  const long open = long(designs.size()) - done - failed;
  std::vector<HtmlFact> facts = {
      {"designs", std::to_string(designs.size())},
      {"computed", std::to_string(done)},
      {"not computable", std::to_string(failed)},
      {"still to do", std::to_string(open)},
      {"pass every rig test", anything_rated(designs) ? std::to_string(passed) : "none rated"},
      {"looked at", head.screened ? "section first, whole wheel where it is good enough"
                                  : html_text(to_text(head.first))},
      {"sweep file", html_text(head.sweep_file)},
      {"case", html_text(head.case_file)},
      {"program", html_text("felloe " + source.version)},
      {"SHA-256 of the sweep file", "<code>" + sha256_hex(head.sweep_text) + "</code>"}};
  std::string heed = "<div class=\"heed\"><strong>Caution</strong><ul>\n";
  for (const std::string &c : sweep_cautions(designs)) heed += "<li>" + html_text(c) + "</li>\n";
  return "<h1>" + html_text(head.title.empty() ? "Sweep" : head.title) + "</h1>\n" +
         html_facts(facts) + heed + "</ul></div>\n";
}

/// Key, unit and the values that occur: a range of numbers, or some of the words.
std::string varied(const SweepHead &head, const Designs &designs) {
  HtmlTable t{"varied",
              "Keys that vary",
              {{"key", ""}, {"unit", ""}, {"values", ""}, {"number of them", "", true}},
              {},
              {}};
  for (std::size_t k = 0; k < head.keys.size(); ++k) {
    std::set<double> numbers;
    std::set<std::string> words;
    for (const StoredDesign &d : designs) {
      if (k >= d.values.size()) continue;
      const Value &v = d.values[k];
      words.insert(plain_text(v));
      if (const auto *x = std::get_if<double>(&v)) numbers.insert(*x);
    }
    std::string values;
    if (!numbers.empty() && numbers.size() == words.size()) {
      values = figure(*numbers.begin(), "%.6g") + " to " + figure(*numbers.rbegin(), "%.6g");
    } else {
      std::size_t n = 0;
      for (const std::string &w : words)
        if (n++ < 8) values += (n > 1 ? ", " : "") + w;
      if (words.size() > 8) values += ", …";
    }
    t.rows.push_back({html_text(head.keys[k]),
                      k < head.units.size() ? html_text(head.units[k]) : "", html_text(values),
                      std::to_string(words.size())});
  }
  return "<h2>What was varied</h2>\n" + html_table(t);
}

std::string failures(const Designs &designs) {
  const auto reasons = failure_reasons(designs);
  if (reasons.empty()) return {};
  HtmlTable t{"failures",
              "Designs that could not be computed, by reason",
              {{"reason", ""}, {"designs", "", true}, {"for example", "", true}},
              {},
              {}};
  for (const FailureReason &r : reasons)
    t.rows.push_back({html_text(r.example), std::to_string(r.count), link_to(r.design)});
  return "<h2>What failed</h2>\n" + html_table(t);
}

HtmlTable design_table(const SweepHead &head, const Designs &designs,
                       const std::vector<std::size_t> &chosen, bool anchors) {
  HtmlTable t;
  t.columns = {{"design", "", true}};
  for (std::size_t k = 0; k < head.keys.size(); ++k) {
    const auto is_text = [&](const StoredDesign &d) {
      return k < d.values.size() && std::holds_alternative<std::string>(d.values[k]);
    };
    t.columns.push_back({head.keys[k], k < head.units.size() ? head.units[k] : "",
                         std::none_of(designs.begin(), designs.end(), is_text)});
  }
  const std::vector<HtmlColumn> figures = {{"verdict", ""},
                                           {"mass", "kg", true},
                                           {"life over required", "", true},
                                           {"allowed over stress", "", true},
                                           {"tilt stiffness", "N m/deg", true},
                                           {"least life", ""}};
  t.columns.insert(t.columns.end(), figures.begin(), figures.end());
  for (const std::size_t i : chosen) {
    const StoredDesign &d = designs[i];
    const std::string n = std::to_string(d.id);
    std::vector<std::string> row = {anchors ? "<a id=\"design-" + n + "\" href=\"#design-" + n +
                                                  "\">" + n + "</a>"
                                            : link_to(d.id)};
    for (const Value &v : d.values) row.push_back(value_text(v));
    row.push_back(state_text(d));
    if (d.complete())
      row.insert(
          row.end(),
          {figure(d.figures.mass_kg, "%.3f"), life_text(d), figure(d.stress_margin(), "%.3f"),
           d.figures.tilt_Nm_per_deg > 0 ? figure(d.figures.tilt_Nm_per_deg) : "", worst_place(d)});
    else
      row.insert(row.end(), {"", "", "", "", html_text(shortened(d.reason, 160))});
    t.rows.push_back(std::move(row));
    t.row_classes.push_back(state_class(d));
  }
  return t;
}

std::string best(const SweepHead &head, const Designs &designs) {
  const bool rated = anything_rated(designs);
  std::string out = "<h2>Best designs</h2>\n";
  const auto light = lightest(head, designs, 10);
  if (light.empty())
    out += rated ? "<p>No design passes every rig test.</p>\n" : "<p>Nothing is computed.</p>\n";
  else {
    HtmlTable t = design_table(head, designs, light, false);
    t.id = "lightest";
    t.caption = rated ? "Lightest designs that pass every rig test" : "Lightest designs";
    out += html_table(t);
  }
  auto front = pareto_front(head, designs);
  if (front.empty()) return out;
  const std::size_t all = front.size();
  if (front.size() > 10) front.resize(10);
  HtmlTable t = design_table(head, designs, front, false);
  t.id = "compromises";
  t.caption = std::to_string(all) +
              " best compromises: no other design is lighter, longer lived and stiffer" +
              (all > 10 ? "; the ten lightest of them" : "");
  return out + html_table(t);
}

std::string plots(const SweepHead &head, const Designs &designs) {
  std::string out = "<h2>Mass against life and stiffness</h2>\n<div class=\"plots\">\n";
  for (const std::string &plot : linked_pareto_plots(head, designs))
    out += "<figure>" + plot + "</figure>\n";
  return out +
         "</div>\n<p class=\"note\">Every point leads to its design. The line joins the designs "
         "that no other one beats in these two figures; green passes every rig test, red fails "
         "one.</p>\n";
}

std::string all_designs(const SweepHead &head, const Designs &designs) {
  std::vector<std::size_t> every(designs.size());
  for (std::size_t i = 0; i < every.size(); ++i) every[i] = i;
  HtmlTable t = design_table(head, designs, every, true);
  t.id = "designs";
  t.caption = "Every design, worst rig test of each";
  return "<section id=\"chosen\" hidden=\"hidden\" aria-live=\"polite\"></section>\n"
         "<h2>All designs</h2>\n"
         "<div class=\"tools\" id=\"tools\" hidden=\"hidden\">\n"
         "<label>rows with all these words<input type=\"search\" id=\"filter\"/></label>\n"
         "<label>verdict<select id=\"filter-verdict\"><option value=\"\">any</option>"
         "<option value=\"is-pass\">pass</option><option value=\"is-fail\">fail</option>"
         "<option value=\"is-unrated\">not rated</option>"
         "<option value=\"is-failed\">not computed</option>"
         "<option value=\"is-open\">still to do</option></select></label>\n"
         "<span id=\"shown\" class=\"quiet\" role=\"status\"></span>\n</div>\n" +
         html_table(t);
}

}  // namespace

std::string sweep_page(const SweepHead &head, const Designs &designs,
                       const SweepPageSource &source) {
  HtmlPage page;
  page.title = (head.title.empty() ? "Sweep" : head.title) + " - felloe";
  page.styles = {sweep_page_style(), sweep_plot_style()};
  page.scripts = {sweep_page_script()};
  page.body = "<main class=\"page\">\n" + head_block(head, designs, source) +
              varied(head, designs) + failures(designs) + best(head, designs) +
              plots(head, designs) + all_designs(head, designs) +
              "<h2>The same again</h2>\n<p>One design as a case of its own, computed with all "
              "fields, error bars and pictures:</p>\n<pre><code>" +
              html_text(command_of_design(source.folder, "N")) +
              "</code></pre>\n</main>\n<script type=\"application/json\" id=\"sweep-data\">" +
              sweep_page_data(head, designs, source) + "</script>\n";
  return html_page(page);
}

}  // namespace felloe
