// SPDX-License-Identifier: GPL-3.0-or-later
// A sweep's designs as a table, as a summary to read, and as JSON.
#pragma once
#include <cstddef>
#include <string>

#include "cli/sweep/ranking.h"

namespace felloe {

/// A swept value as it is read: text without quotes.
std::string plain_text(const Value &);

/// One line a design, comma separated (RFC 4180). The last columns, from version on, may
/// differ from one run to the next; the others do not.
std::string sweep_table(const SweepHead &, const Designs &);

/// The lightest designs that pass, as aligned columns.
std::string best_list(const SweepHead &, const Designs &, std::size_t at_most);

/// What a sweep found, to read; `folder` is where it lies.
std::string sweep_summary(const SweepHead &, const Designs &, const std::string &folder);

/// The same as JSON.
std::string sweep_json(const SweepHead &, const Designs &, const std::string &folder);

}  // namespace felloe
