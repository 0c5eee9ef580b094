// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/csv_table.h"

#include <algorithm>
#include <cassert>
#include <charconv>
#include <cmath>
#include <optional>

#include "cli/case_keys.h"
#include "cli/nearest.h"
#include "cli/text_file.h"
#include "mesher/error.h"

namespace felloe {
namespace {

struct Cell {
  std::string text;
  int column;  ///< counted from 1
};

/// Cells of a line without the blanks round them.
std::vector<Cell> cells_of(const std::string &line) {
  std::vector<Cell> cells;
  for (std::size_t begin = 0;;) {
    const std::size_t end = std::min(line.find(',', begin), line.size());
    std::size_t a = begin, b = end;
    while (a < b && (line[a] == ' ' || line[a] == '\t')) ++a;
    while (b > a && (line[b - 1] == ' ' || line[b - 1] == '\t')) --b;
    cells.push_back({line.substr(a, b - a), static_cast<int>(a) + 1});
    if (end == line.size()) return cells;
    begin = end + 1;
  }
}

std::optional<double> number_of(const std::string &text) {
  double value = 0;
  const auto end = std::from_chars(text.data(), text.data() + text.size(), value);
  if (end.ec != std::errc() || end.ptr != text.data() + text.size()) return {};
  return value;
}

std::string shown(const std::string &text) {
  return text.size() > 40 ? text.substr(0, 37) + "..." : text.empty() ? "(empty)" : text;
}

const CsvColumn *column_of(const std::vector<CsvColumn> &known, const std::string &name) {
  for (const auto &k : known)
    if (k.name == name) return &k;
  return nullptr;
}

std::string accepted(const CsvColumn &c) {
  if (c.yes_no) return "yes or no";
  return plain_number(c.smallest) + " to " + plain_number(c.largest);
}

/// The cell's number, or a finding.
double value_of(const Cell &cell, const CsvColumn &column, int line, Findings &findings) {
  const auto refuse = [&](const std::string &why) {
    findings.add(Spot{line, cell.column, {}}, column.name + " = " + shown(cell.text) + ": " + why +
                                                  "; accepted: " + accepted(column));
    return 0.0;
  };
  if (column.text) return 0;
  if (column.yes_no) {
    if (cell.text == "yes" || cell.text == "no") return cell.text == "yes";
    return refuse("unknown word");
  }
  const auto value = number_of(cell.text);
  if (!value || !std::isfinite(*value)) return refuse("not a number");
  if (*value < column.smallest) return refuse("too small");
  if (*value > column.largest) return refuse("too large");
  return *value;
}

std::vector<std::string> read_header(const std::vector<Cell> &cells, int line,
                                     const std::vector<CsvColumn> &known, Findings &findings) {
  std::vector<std::string> names, all;
  for (const auto &k : known) all.push_back(k.name);
  for (const Cell &cell : cells) {
    const Spot spot{line, cell.column, {}, false};
    if (cells.size() == 1 && cell.text.find(';') != std::string::npos)
      findings.add(spot, "the columns are separated by ';'; separate them by commas");
    else if (!column_of(known, cell.text))
      findings.add(spot, "column '" + shown(cell.text) + "': unknown" +
                             did_you_mean(cell.text, all) + "; the first line names the columns, " +
                             "known are " + listed(all));
    else if (std::find(names.begin(), names.end(), cell.text) != names.end())
      findings.add(spot, "column '" + cell.text + "': given twice; remove one");
    names.push_back(cell.text);
  }
  return names;
}

}  // namespace

CsvTable::CsvTable(const std::string &path, const std::vector<CsvColumn> &known) : file_(path) {
  std::string text = read_text_file(path);
  if (text.compare(0, 3, "\xEF\xBB\xBF") == 0) text.erase(0, 3);
  Findings findings(path);
  int line = 0;
  for (std::size_t begin = 0; begin < text.size();) {
    const std::size_t end = std::min(text.find('\n', begin), text.size());
    std::string row = text.substr(begin, end - begin);
    begin = end + 1;
    ++line;
    if (!row.empty() && row.back() == '\r') row.pop_back();
    if (row.find_first_not_of(" \t") == std::string::npos || row[0] == '#') continue;
    const std::vector<Cell> cells = cells_of(row);
    if (names_.empty()) {
      names_ = read_header(cells, line, known, findings);
      findings.throw_if_any();  // nothing below can be judged
      continue;
    }
    if (cells.size() != names_.size()) {
      findings.add(Spot{line, 1, {}}, std::to_string(cells.size()) + " values, but " +
                                          std::to_string(names_.size()) +
                                          " columns; give every column a value");
      continue;
    }
    std::vector<double> numbers;
    for (std::size_t i = 0; i < cells.size(); ++i)
      numbers.push_back(value_of(cells[i], *column_of(known, names_[i]), line, findings));
    numbers_.push_back(std::move(numbers));
    lines_.push_back(line);
  }
  if (names_.empty())
    findings.add(Spot{}, "the file holds no table; its first line must name the columns");
  else if (lines_.empty() && findings.empty())
    findings.add(Spot{line, 1, {}}, "there are no rows below the names of the columns; add some");
  findings.throw_if_any();
}

bool CsvTable::has(const std::string &column) const {
  return std::find(names_.begin(), names_.end(), column) != names_.end();
}

std::size_t CsvTable::index(const std::string &column) const {
  assert(has(column));
  return static_cast<std::size_t>(std::find(names_.begin(), names_.end(), column) - names_.begin());
}

double CsvTable::number(std::size_t row, const std::string &column) const {
  return numbers_[row][index(column)];
}

}  // namespace felloe
