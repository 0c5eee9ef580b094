// SPDX-License-Identifier: GPL-3.0-or-later
// What was calculated: the wheel with its drawing, and the loads.
#include <fmt/format.h>

#include "post/confidence.h"
#include "post/html/page.h"
#include "post/html/table.h"
#include "post/html/text.h"
#include "post/plot/frame.h"
#include "post/report/sections.h"
#include "post/report/words.h"

namespace felloe {
namespace {

std::string facts(const std::vector<ReportFact> &facts) {
  std::vector<HtmlFact> all;
  for (const ReportFact &f : facts) all.push_back({f.name, name_markup(f.value)});
  return html_facts(all);
}

}  // namespace

std::string job_section(const ReportInput &in) {
  std::string out = facts(in.wheel);
  if (!in.section.markup.empty())
    out += "<figure>" + drawing_box(in.section.markup, "Half section with its dimensions") +
           "<figcaption>Half section with its dimensions in mm; holes on their own meridians."
           "</figcaption></figure>\n";
  return out;
}

std::string loads_section(const ReportInput &in) {
  std::string out = in.loads.empty() ? "" : facts(in.loads);
  if (in.results.tests.empty()) return out;
  HtmlTable t;
  t.id = "rig-tests";
  t.caption = "Rig tests with load, required cycles and where their factors come from";
  t.columns = {{"Rig test", "", false}, {"Kind", "", false},
               {"Load", "", true},      {"Required", "cycles", true},
               {"Wheels", "", true},    {"Ends as failed by", "", false},
               {"Source", "", false},   {"Confidence", "", false}};
  for (const TestVerdict &v : in.results.tests)
    t.rows.push_back({test_markup(in.results, v.name), html_text(v.kind),
                      html_text(figure_text(v.load) + " " + v.load_unit),
                      cycles_words(v.required_cycles), std::to_string(v.wheels),
                      html_text(v.failure_criterion), html_text(v.source),
                      html_text(v.confidence)});
  return out + html_table(t);
}

}  // namespace felloe
