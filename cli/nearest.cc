// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/nearest.h"

#include "solver/nearest_name.h"

#include <algorithm>
#include <cctype>

namespace felloe {
namespace {

std::string folded(const std::string &word) {
  std::string out;
  for (const char c : word)
    out += c == '-' || c == ' ' ? '_' : char(std::tolower(static_cast<unsigned char>(c)));
  return out;
}

}  // namespace

std::string nearest(const std::string &found, const std::vector<std::string> &known) {
  const std::string word = folded(found);
  if (word.empty() || word.size() > 100) return {};
  std::string best;
  int least = std::max(1, int(word.size()) / 3) + 1;
  for (const auto &candidate : known) {
    const std::string other = folded(candidate);
    const bool begins = word.size() >= 3 && other.compare(0, word.size(), word) == 0;
    const int distance =
        begins ? std::min(1, edit_distance(word, other)) : edit_distance(word, other);
    if (distance < least) least = distance, best = candidate;
  }
  return best;
}

std::string did_you_mean(const std::string &found, const std::vector<std::string> &known) {
  const std::string word = nearest(found, known);
  return word.empty() ? std::string() : "; did you mean '" + word + "'?";
}

std::string listed(const std::vector<std::string> &words) {
  std::string list;
  for (const auto &word : words) list += (list.empty() ? "'" : ", '") + word + "'";
  return list;
}

}  // namespace felloe
