// SPDX-License-Identifier: GPL-3.0-or-later
// Cautions, how to get the same figures again, signatures.
#include <fmt/format.h>

#include "post/html/digest.h"
#include "post/html/table.h"
#include "post/html/text.h"
#include "post/report/sections.h"
#include "post/report/words.h"

namespace felloe {

std::string cautions_section(const ReportInput &in) {
  std::string out = "<ol>\n";
  for (const std::string &c : in.results.cautions) out += "<li>" + html_text(c) + "</li>\n";
  return out + "</ol>\n";
}

std::string reproduce_section(const ReportInput &in) {
  std::string out =
      "<p>The file <code>case.toml</code> beside this report holds every key of the calculation, "
      "defaults spelled out. This command gives the same figures from it with the same version "
      "of the program:</p>\n<pre><code>" +
      html_text(in.command) + "</code></pre>\n";
  out += html_facts({
      {"SHA-256 of case.toml", "<code>" + sha256_hex(in.case_text) + "</code>", true},
      {"Program", "felloe " + html_text(in.results.program_version)},
      {"Date", html_text(in.date)},
      {"Case file as given", name_markup(in.results.case_file)},
  });
  return out +
         "<p class=\"note\">To check the file: <code>sha256sum case.toml</code>. All figures of "
         "this "
         "page stand in <code>results.json</code> with more digits.</p>\n";
}

std::string signatures_section(const ReportInput &) {
  HtmlTable t;
  t.id = "signature-table";
  t.caption =
      "A signature says that its owner has read the cautions and the provenance of the factors; it "
      "does not release the wheel for the road.";
  t.columns = {
      {"Role", "", false}, {"Name", "", false}, {"Date", "", false}, {"Signature", "", false}};
  for (const char *role : {"Prepared", "Checked", "Released for testing"})
    t.rows.push_back({role, "", "", ""});
  return "<div class=\"sign\">" + html_table(t) + "</div>\n";
}

}  // namespace felloe
