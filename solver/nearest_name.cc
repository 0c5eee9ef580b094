// SPDX-License-Identifier: GPL-3.0-or-later
// Edit distance between names (optimal string alignment).
#include "solver/nearest_name.h"

#include <algorithm>
#include <cctype>
#include <utility>

namespace felloe {
namespace {

std::string lower(std::string text) {
  for (char &c : text) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return text;
}

}  // namespace

int edit_distance(const std::string &a, const std::string &b) {
  const int m = static_cast<int>(a.size()), n = static_cast<int>(b.size());
  std::vector<std::vector<int>> d(m + 1, std::vector<int>(n + 1));
  for (int i = 0; i <= m; ++i) d[i][0] = i;
  for (int j = 0; j <= n; ++j) d[0][j] = j;
  for (int i = 1; i <= m; ++i)
    for (int j = 1; j <= n; ++j) {
      d[i][j] = std::min(
          {d[i - 1][j] + 1, d[i][j - 1] + 1, d[i - 1][j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1)});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
        d[i][j] = std::min(d[i][j], d[i - 2][j - 2] + 1);
    }
  return d[m][n];
}

std::vector<std::string> nearest_names(const std::string &name,
                                       const std::vector<std::string> &known, int count) {
  const std::string wanted = lower(name);
  std::vector<std::pair<int, std::string>> ranked;
  for (const auto &k : known) {
    const std::string candidate = lower(k);
    const bool part = wanted.size() >= 2 && candidate.find(wanted) != std::string::npos;
    ranked.emplace_back(part ? 0 : edit_distance(wanted, candidate), k);
  }
  std::stable_sort(ranked.begin(), ranked.end(),
                   [](const auto &a, const auto &b) { return a.first < b.first; });
  std::vector<std::string> best;
  for (int i = 0; i < count && i < static_cast<int>(ranked.size()); ++i)
    best.push_back(ranked[i].second);
  return best;
}

std::string unknown_name(const std::string &what, const std::string &name,
                         const std::vector<std::string> &known) {
  std::string text = what + " '" + name + "': not known";
  const auto nearest = nearest_names(name, known, 1);
  if (!nearest.empty()) text += "; did you mean '" + nearest[0] + "'?";
  text += " Accepted:";
  for (std::size_t i = 0; i < known.size(); ++i) text += (i ? ", " : " ") + known[i];
  return text + ".";
}

}  // namespace felloe
