// SPDX-License-Identifier: GPL-3.0-or-later
// What moves the life: one change at a time, as marks over a scale of factors and as a table.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "post/html/page.h"
#include "post/html/table.h"
#include "post/html/text.h"
#include "post/plot/frame.h"
#include "post/report/sections.h"
#include "post/report/words.h"

namespace felloe {
namespace {

constexpr double row_height = 22, width = 900, label_width = 300;

std::vector<std::string> changes(const Results &r) {
  std::vector<std::string> all;
  for (const Sensitivity &s : r.sensitivities)  // largest first
    if (std::find(all.begin(), all.end(), s.change) == all.end()) all.push_back(s.change);
  return all;
}

std::string plot(const Results &r, const std::vector<std::string> &rows) {
  std::vector<double> ratios = {0.5, 2};
  for (const Sensitivity &s : r.sensitivities)
    if (std::isfinite(s.life_ratio) && s.life_ratio > 0)
      ratios.push_back(std::clamp(s.life_ratio, 1e-3, 1e3));
  const double height = 30 + row_height * double(rows.size()) + 50;
  const PlotFrame frame(width, height,
                        log_axis_for("life over the life without the change", ratios),
                        {"", 0, double(rows.size())}, {label_width, 30, 12, 46});
  Svg svg;
  for (const double v : ticks(frame.x(), 8)) {
    const double x = frame.at(v, 0)[0];
    svg.line({x, frame.top()}, {x, frame.bottom()}, "grid");
    svg.text({x, frame.bottom() + 17}, tick_text(frame.x(), v), "tick", "middle");
  }
  svg.text({0.5 * (frame.left() + frame.right()), frame.bottom() + 36}, frame.x().label,
           "axis-label", "middle");
  const double one = frame.at(1, 0)[0];
  svg.line({one, frame.top()}, {one, frame.bottom()}, "zero");
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const double y = frame.at(1, double(rows.size()) - 0.5 - double(i))[1];
    svg.text({frame.left() - 10, y + 4}, shortened(rows[i], 46), "tick", "end");
    for (const Sensitivity &s : r.sensitivities) {
      if (s.change != rows[i]) continue;
      const int test = test_index(r, s.test) % 5;
      const double x = frame.held_in(std::isnan(s.life_ratio) ? 1 : s.life_ratio, 0.5)[0];
      const double shift = 4.0 * ((test_index(r, s.test) % 2) ? 1 : -1);
      svg.line({one, y + shift}, {x, y + shift}, fmt::format("line-{}", test));
      svg.mark({x, y + shift}, 4, test, series_class(test));
    }
  }
  return svg.element(width, height, "sensitivity-plot", "plot",
                     "Life over the life without the change, one change at a time",
                     "The table below holds the same figures.");
}

std::string table(const Results &r, const std::vector<std::string> &rows) {
  HtmlTable t;
  t.id = "sensitivity-table";
  t.caption = fmt::format(
      "One change at a time, computed without a new solve; life at {:g} % survival. Thickness "
      "needs a run of its own.",
      r.survival_percent);
  t.columns = {{"Change", "", false}};
  for (const TestVerdict &v : r.tests) {
    t.columns.push_back({v.name + ": life", "cycles", true});
    t.columns.push_back({"factor", "", true});
    t.columns.push_back({"verdict", "", false});
  }
  for (const std::string &change : rows) {
    std::vector<std::string> row = {html_text(change)};
    for (const TestVerdict &v : r.tests) {
      const auto found = std::find_if(
          r.sensitivities.begin(), r.sensitivities.end(),
          [&](const Sensitivity &s) { return s.change == change && s.test == v.name; });
      if (found == r.sensitivities.end())
        row.insert(row.end(), {"\u2013", "\u2013", "\u2013"});
      else
        row.insert(row.end(), {cycles_words(found->life_design), figure_text(found->life_ratio, 3),
                               verdict_markup(found->verdict)});
    }
    t.rows.push_back(row);
  }
  return html_table(t);
}

}  // namespace

std::string sensitivity_section(const ReportInput &in) {
  if (in.results.sensitivities.empty()) return "";
  const auto rows = changes(in.results);
  std::string keys;
  for (std::size_t i = 0; i < in.results.tests.size(); ++i)
    keys += (i ? ", " : "") + series_key(static_cast<int>(i)) + " " +
            name_markup(in.results.tests[i].name);
  return "<figure>" + drawing_box(plot(in.results, rows), "Life after one change at a time") +
         "<figcaption>" + keys + ". Left of 1 the wheel lives shorter.</figcaption></figure>\n" +
         table(in.results, rows);
}

}  // namespace felloe
