// SPDX-License-Identifier: GPL-3.0-or-later
// Prints the tables: materials, rim contours, loads, rig tests, criteria, weld classes, keys.
#pragma once
#include <string>
#include <vector>

namespace felloe {

/// The words that `felloe list` knows.
std::vector<std::string> list_topics();
/// The same, one a line with what each one shows, indented by two.
std::string list_topic_lines();
/// One table as text, every row with source and confidence; for an empty topic all tables of rows.
/// Throws Error for an unknown topic, with the nearest one.
std::string list_text(const std::string &topic, std::size_t width);
/// The same as JSON: an object with a list of rows, or of keys, for each topic. The schema is JSON
/// as it is; Error for what has no rows (the man page, the completion).
std::string list_json(const std::string &topic);

}  // namespace felloe
