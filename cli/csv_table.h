// SPDX-License-Identifier: GPL-3.0-or-later
// Strict reading of comma-separated tables: every mistake is reported with its line and column.
#pragma once
#include <cstddef>
#include <string>
#include <vector>

#include "cli/findings.h"

namespace felloe {

/// What a column of the table may hold.
struct CsvColumn {
  std::string name;  ///< with its unit as suffix
  bool text = false;
  bool yes_no = false;               ///< "yes" or "no"; read as 1 and 0
  double smallest = 0, largest = 0;  ///< numbers only, both ends allowed
};

/// Numbers and texts by column name; a column that the file lacks has no values.
class CsvTable {
 public:
  /// Reads a file: a header line with column names, then one line a row; '#' starts a comment line.
  /// Throws Error that lists every mistake, one a line: "file:line:column: name = value: why not;
  /// what is accepted".
  CsvTable(const std::string &path, const std::vector<CsvColumn> &known);

  std::size_t rows() const { return lines_.size(); }
  bool has(const std::string &column) const;
  double number(std::size_t row, const std::string &column) const;
  /// Where a row stands in the file.
  Spot spot(std::size_t row) const { return {lines_[row], 1, {}, false}; }
  const std::string &file() const { return file_; }

 private:
  std::size_t index(const std::string &column) const;
  std::string file_;
  std::vector<std::string> names_;
  std::vector<int> lines_;
  std::vector<std::vector<double>> numbers_;
};

}  // namespace felloe
