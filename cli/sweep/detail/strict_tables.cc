// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sweep/detail/strict_tables.h"

#include <algorithm>

#include "cli/nearest.h"

namespace felloe {

void StrictTables::read_rows(const toml::table &table, const std::string &place,
                             const std::vector<Row> &rows, const std::vector<std::string> &others) {
  std::vector<std::string> known = others;
  for (const Row &row : rows) known.push_back(row.name);
  for (const auto &[key, node] : table) {
    const std::string name(key.str());
    const auto row =
        std::find_if(rows.begin(), rows.end(), [&](const Row &r) { return r.name == name; });
    if (row != rows.end()) {
      std::string why;
      const auto value = converted(node, row->domain, why);
      if (value)
        row->put(*value);
      else
        findings_.add(spot_of(key, node), place, name, why);
    } else if (std::find(others.begin(), others.end(), name) == others.end()) {
      const std::string near = did_you_mean(name, known);
      findings_.add(spot_of(key, node), place, name,
                    "unknown key" + (near.empty() ? "; known are " + listed(known) : near));
    }
  }
}

void StrictTables::add(const toml::table &table, const std::string &place, const std::string &key,
                       const std::string &why) {
  const auto at = table.find(key);
  if (at != table.end())
    findings_.add(spot_of(at->first, at->second), place, key, why);
  else
    findings_.add(spot_of(table), place, key, why);
}

std::vector<const toml::table *> StrictTables::tables_of(const toml::table &root,
                                                         const std::string &name) {
  std::vector<const toml::table *> all;
  const toml::node *node = root.get(name);
  if (!node) return all;
  const auto *list = node->as_array();
  if (list)
    for (const auto &item : *list)
      if (const auto *table = item.as_table()) all.push_back(table);
  if (!list || all.size() != list->size())
    findings_.add(spot_of(*node, written(*node)), "[[" + name + "]]", "",
                  "wrong type; write [[" + name + "]] and its keys below, once for each");
  return all;
}

}  // namespace felloe
