// SPDX-License-Identifier: GPL-3.0-or-later
// The word that somebody probably meant.
#pragma once
#include <string>
#include <vector>

namespace felloe {

/// The known word nearest to `found`, or an empty text when none is near. Capitals, '-', '_' and
/// spaces count as equal, and a word that only lacks its ending ("thickness" for "thickness_mm")
/// is near.
std::string nearest(const std::string &found, const std::vector<std::string> &known);

/// "; did you mean 'x'?" or an empty text.
std::string did_you_mean(const std::string &found, const std::vector<std::string> &known);

/// 'a', 'b', 'c'.
std::string listed(const std::vector<std::string> &words);

}  // namespace felloe
