// SPDX-License-Identifier: GPL-3.0-or-later
// Tables of a page.
#include "post/html/table.h"

#include <fmt/format.h>

#include "post/html/text.h"

namespace felloe {
namespace {

const char *column_class(const HtmlTable &t, std::size_t column) {
  return column < t.columns.size() && t.columns[column].number ? " class=\"number\"" : "";
}

/// Keys of a case may break after their dots and underscores.
std::string head_text(const std::string &head) {
  std::string out;
  for (const char c : html_text(head)) {
    out += c;
    if (c == '.' || c == '_') out += "<wbr/>";
  }
  return out;
}

std::string heads(const HtmlTable &t) {
  std::string out = "<thead><tr>";
  for (std::size_t i = 0; i < t.columns.size(); ++i) {
    const HtmlColumn &c = t.columns[i];
    out += fmt::format("<th scope=\"col\"{}>{}", column_class(t, i), head_text(c.head));
    if (!c.unit.empty()) out += fmt::format(" <span class=\"unit\">{}</span>", html_text(c.unit));
    out += "</th>";
  }
  return out + "</tr></thead>\n";
}

std::string row(const HtmlTable &t, std::size_t r) {
  std::string out = "<tr";
  if (r < t.row_classes.size() && !t.row_classes[r].empty())
    out += fmt::format(" class=\"{}\"", t.row_classes[r]);
  out += ">";
  for (std::size_t i = 0; i < t.rows[r].size(); ++i)
    out += i == 0 ? fmt::format("<th scope=\"row\"{}>{}</th>", column_class(t, i), t.rows[r][i])
                  : fmt::format("<td{}>{}</td>", column_class(t, i), t.rows[r][i]);
  return out + "</tr>\n";
}

}  // namespace

std::string html_table(const HtmlTable &t) {
  // A box that scrolls must be reachable by the keyboard, and then needs a name.
  std::string out = fmt::format(
      "<div class=\"table-box\" tabindex=\"0\" role=\"region\" aria-label=\"{0}\">\n"
      "<table id=\"{1}\">\n<caption>{0}</caption>\n",
      html_text(t.caption), html_id(t.id));
  out += heads(t) + "<tbody>\n";
  for (std::size_t r = 0; r < t.rows.size(); ++r) out += row(t, r);
  return out + "</tbody>\n</table>\n</div>\n";
}

std::string html_facts(const std::vector<HtmlFact> &facts) {
  std::string out = "<dl class=\"facts\">\n";
  for (const HtmlFact &f : facts)
    out += fmt::format("<div{}><dt>{}</dt><dd>{}</dd></div>\n", f.broad ? " class=\"broad\"" : "",
                       html_text(f.name), f.value);
  return out + "</dl>\n";
}

}  // namespace felloe
