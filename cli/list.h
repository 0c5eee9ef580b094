// SPDX-License-Identifier: GPL-3.0-or-later
// Prints the tables: materials, rim contours, loads, rig tests, criteria, weld classes, keys.
#pragma once
#include <string>
#include <vector>

namespace felloe {

/// The tables that `felloe list` knows.
const std::vector<std::string> &list_topics();
/// One table as text, every row with source and confidence; all but the schema for an empty topic.
std::string list_text(const std::string &topic);

}  // namespace felloe
