// SPDX-License-Identifier: GPL-3.0-or-later
// Finds the row that a misspelt name meant.
#pragma once
#include <string>
#include <vector>

namespace felloe {

/// Fewest insertions, deletions, replacements and swaps of neighbours that turn one word into the
/// other (optimal string alignment, textbook dynamic programming).
int edit_distance(const std::string &, const std::string &);

/// The names closest to the given one (insertions, deletions, replacements and swaps of letters,
/// capitals ignored; a name that contains the given text counts as close), best first.
std::vector<std::string> nearest_names(const std::string &name,
                                       const std::vector<std::string> &known, int count = 3);

/// Text of an Error for a name that no row has: "<what> 'x': not known; did you mean 'y'? ..."
std::string unknown_name(const std::string &what, const std::string &name,
                         const std::vector<std::string> &known);

}  // namespace felloe
