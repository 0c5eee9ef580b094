// SPDX-License-Identifier: GPL-3.0-or-later
// The store's open file and its tables.
#pragma once
#include "cli/sweep/detail/database.h"
#include "cli/sweep/store.h"

namespace felloe {

struct Store::Impl {
  Impl(const std::string &folder, Database::Use use)
      : path(Store::file_of(folder)), database(path, use) {}

  std::string meta(const std::string &name) const;
  void set_meta(const std::string &name, const std::string &value);
  /// Queues the wheel of this design (0: of all) where the section was good enough.
  void queue_wheels(double largest_utilisation, std::int64_t design);

  std::string path;
  Database database;
};

Depth depth_of(const std::string &);
Value stored_value(const Statement &, int column);
void put_value(Statement &, int place, const Value &);

}  // namespace felloe
