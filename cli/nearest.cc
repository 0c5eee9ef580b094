// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/nearest.h"

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

int edit_distance(const std::string &a, const std::string &b) {
  const std::size_t n = a.size(), m = b.size();
  std::vector<std::vector<int>> d(n + 1, std::vector<int>(m + 1));
  for (std::size_t i = 0; i <= n; ++i) d[i][0] = int(i);
  for (std::size_t j = 0; j <= m; ++j) d[0][j] = int(j);
  for (std::size_t i = 1; i <= n; ++i)
    for (std::size_t j = 1; j <= m; ++j) {
      d[i][j] = std::min(
          {d[i - 1][j] + 1, d[i][j - 1] + 1, d[i - 1][j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1)});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
        d[i][j] = std::min(d[i][j], d[i - 2][j - 2] + 1);
    }
  return d[n][m];
}

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
