// SPDX-License-Identifier: GPL-3.0-or-later
// Every factor with its source and how sure it is; what is assumed besides.
#include <fmt/format.h>

#include "post/confidence.h"
#include "post/html/table.h"
#include "post/html/text.h"
#include "post/report/sections.h"
#include "post/report/words.h"

namespace felloe {

std::string provenance_section(const ReportInput &in) {
  std::string out;
  if (!in.factors.empty()) {
    HtmlTable t;
    t.id = "factors";
    t.caption =
        "Factors and data with their source. Marked \u26A0: nobody has checked the value in its "
        "source; replace it by the current standard or by your own tests before release.";
    t.columns = {{"What", "", false},
                 {"Value", "", false},
                 {"Source", "", false},
                 {"Confidence", "", false}};
    for (const Provenance &p : in.factors)
      t.rows.push_back({name_markup(p.what), html_text(p.value), html_text(p.source),
                        low_confidence(p.confidence)
                            ? "<span class=\"word-not-rated\" aria-hidden=\"true\">\u26A0 </span>" +
                                  html_text(p.confidence)
                            : html_text(p.confidence)});
    out += html_table(t);
  }
  if (in.results.assumptions.empty()) return out;
  out += "<h3>Assumptions of this run</h3>\n<ul>\n";
  for (const std::string &a : in.results.assumptions) out += "<li>" + html_text(a) + "</li>\n";
  return out + "</ul>\n";
}

}  // namespace felloe
