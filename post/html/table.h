// SPDX-License-Identifier: GPL-3.0-or-later
// Tables of a page.
#pragma once
#include <string>
#include <vector>

namespace felloe {

struct HtmlColumn {
  std::string head;     ///< plain text
  std::string unit;     ///< under the head; empty: none
  bool number = false;  ///< set flush right in figures of equal width
};

/// A table whose first cell of every row names the row. Cells are markup: pass html_text() of
/// foreign text.
struct HtmlTable {
  std::string id, caption;  ///< caption: plain text, says what the table is
  std::vector<HtmlColumn> columns;
  std::vector<std::vector<std::string>> rows;
  std::vector<std::string> row_classes;  ///< by row; may be shorter
};

/// With <caption>, scoped heads, and in a box that scrolls sideways by itself on a narrow screen.
std::string html_table(const HtmlTable &);

/// Name and value.
struct HtmlFact {
  std::string name;    ///< plain text
  std::string value;   ///< markup
  bool broad = false;  ///< over all columns
};

/// Facts in columns, as many as there is room for: <dl>.
std::string html_facts(const std::vector<HtmlFact> &);

}  // namespace felloe
