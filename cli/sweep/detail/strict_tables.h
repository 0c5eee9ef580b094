// SPDX-License-Identifier: GPL-3.0-or-later
// Tables of a TOML file read strictly: every fault is collected, nothing unknown is passed over.
#pragma once
#include <functional>
#include <string>
#include <vector>

#include "cli/detail/toml_value.h"
#include "cli/findings.h"

namespace felloe {

/// A key with a single value.
struct Row {
  std::string name;
  Domain domain;
  std::function<void(const Value &)> put;
};

class StrictTables {
 protected:
  explicit StrictTables(const std::string &file) : findings_(file) {}

  /// Puts the values of the rows that stand in the table; `others` are known as well and read
  /// elsewhere.
  void read_rows(const toml::table &, const std::string &place, const std::vector<Row> &rows,
                 const std::vector<std::string> &others);
  /// A finding about a key where it stands in the table, else about the table.
  void add(const toml::table &, const std::string &place, const std::string &key,
           const std::string &why);
  /// The tables of [[name]].
  std::vector<const toml::table *> tables_of(const toml::table &root, const std::string &name);

  Findings findings_;
};

}  // namespace felloe
