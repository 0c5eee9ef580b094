// SPDX-License-Identifier: GPL-3.0-or-later
// Order and headings of the report.
#include "post/report/report.h"

#include <fmt/format.h>

#include "post/html/digest.h"
#include "post/html/table.h"
#include "post/html/text.h"
#include "post/plot/frame.h"
#include "post/report/sections.h"
#include "post/report/words.h"
#include "post/results_json.h"

namespace felloe {
namespace {

struct Section {
  const char *id, *heading;
  std::string markup;
};

std::vector<Section> sections(const ReportInput &in) {
  std::vector<Section> all = {
      {"verdict", "Verdict", verdict_section(in)},
      {"place", "Where it breaks", place_section(in)},
      {"view-3d", "The wheel in three dimensions", in.view_3d.markup},
      {"job", "The wheel", job_section(in)},
      {"loads", "Loads and rig tests", loads_section(in)},
      {"hot-spots", "Hot spots", hot_spot_section(in)},
      {"life", "Life on the S-N curves", life_section(in)},
      {"mean-stress", "Mean stress and amplitude", mean_stress_section(in)},
      {"one-turn", "Stress over one turn", one_turn_section(in)},
      {"figures", "Mass, balance, stiffness", figures_section(in)},
      {"gauges", "Strain gauges", gauges_section(in)},
      {"spectrum", "Service spectrum", spectrum_section(in)},
      {"sensitivity", "What moves the life most", sensitivity_section(in)},
      {"accuracy", "Accuracy of the stresses", accuracy_section(in)},
      {"provenance", "Factors, sources, assumptions", provenance_section(in)},
      {"cautions", "Cautions", cautions_section(in)},
      {"reproduce", "How to get these figures again", reproduce_section(in)},
      {"signatures", "Signatures", signatures_section(in)},
  };
  std::vector<Section> said;
  for (Section &s : all)
    if (!s.markup.empty()) said.push_back(std::move(s));
  return said;
}

std::string title_of(const Results &r) { return r.title.empty() ? r.case_file : r.title; }

std::string title_block(const ReportInput &in) {
  const Results &r = in.results;
  const std::vector<HtmlFact> fields = {
      {"Document", "Stress and fatigue calculation of a wheel"},
      {"Case", name_markup(r.case_file)},
      {"Case, SHA-256", "<code>" + sha256_hex(in.case_text).substr(0, 16) + "\u2026</code>"},
      {"Date", html_text(in.date)},
      {"Program", "felloe " + html_text(r.program_version)},
      {"Units", "mm, N, MPa, kg, Hz"},
  };
  std::string out = "<dl class=\"title-block\">\n";
  for (const HtmlFact &f : fields)
    out += fmt::format("<div><dt>{}</dt><dd>{}</dd></div>\n", html_text(f.name), f.value);
  return out + "</dl>\n";
}

std::string contents(const std::vector<Section> &all) {
  std::string out = "<nav class=\"wide-only\" aria-label=\"Contents\">\n<ol class=\"contents\">\n";
  for (const Section &s : all)
    out += fmt::format("<li><a href=\"#{}\">{}</a></li>\n", s.id, s.heading);
  return out + "</ol>\n</nav>\n";
}

}  // namespace

std::string report_html(const ReportInput &in) {
  const auto all = sections(in);
  HtmlPage page;
  page.title =
      title_of(in.results) + ": " + verdict_text(overall_verdict(in.results)) + " (felloe report)";
  page.styles = {plot_style()};
  for (const HtmlFragment *part : {&in.section, &in.view_3d}) {
    page.styles.insert(page.styles.end(), part->styles.begin(), part->styles.end());
    page.scripts.insert(page.scripts.end(), part->scripts.begin(), part->scripts.end());
  }
  page.body =
      "<a class=\"skip\" href=\"#verdict\">To the verdict</a>\n<div "
      "class=\"page\">\n<header>\n<h1>" +
      name_markup(title_of(in.results)) + "</h1>\n" + title_block(in) + "</header>\n<main>\n";
  for (std::size_t i = 0; i < all.size(); ++i) {
    page.body += fmt::format("<section id=\"{}\">\n<h2>{}. {}</h2>\n{}</section>\n", all[i].id,
                             i + 1, all[i].heading, all[i].markup);
    if (i == 0) page.body += contents(all);
  }
  page.body += "</main>\n</div>\n";
  return html_page(page);
}

}  // namespace felloe
