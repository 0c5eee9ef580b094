// SPDX-License-Identifier: GPL-3.0-or-later
// The tables of rows that felloe computes with, made ready to be shown.
#pragma once
#include <string>
#include <vector>

namespace felloe {

/// One row: name, its numbers, what it is, where it comes from and how sure that is.
struct ListRow {
  std::string name, figures, summary, source, confidence;
  bool standard = false;  ///< taken when a case names none
};

struct ListTable {
  std::string title;  ///< what it holds, and the key of a case file that takes its names
  std::vector<ListRow> rows;
  std::vector<std::string> remarks;  ///< paragraphs below the rows
};

/// A word for `felloe list`.
struct ListTopic {
  std::string name, summary;
  std::vector<ListTable> (*tables)() = nullptr;
};

const std::vector<ListTopic> &list_tables();

}  // namespace felloe
