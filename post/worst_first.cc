// SPDX-License-Identifier: GPL-3.0-or-later
#include "post/worst_first.h"

#include <algorithm>
#include <tuple>

namespace felloe {

void sort_and_number(std::vector<HotSpot> &spots) {
  const auto key = [](const HotSpot &s) {
    const bool fails = s.verdict == Verdict::fail && s.required_cycles > 0;
    return std::make_tuple(!fails, fails ? s.life_design / s.required_cycles : 0, -utilisation(s),
                           -s.fully_reversed);
  };
  std::stable_sort(spots.begin(), spots.end(),
                   [&](const HotSpot &a, const HotSpot &b) { return key(a) < key(b); });
  for (std::size_t i = 0; i < spots.size(); ++i) spots[i].id = static_cast<int>(i) + 1;
}

const HotSpot *worst_of(const std::vector<HotSpot> &sorted, const std::string &test) {
  for (const HotSpot &s : sorted)
    if (s.test == test) return &s;
  return nullptr;
}

const HotSpot *shortest_lived(const std::vector<HotSpot> &spots, const std::string &test) {
  const HotSpot *shortest = nullptr;
  for (const HotSpot &s : spots)
    if (s.test == test && (!shortest || s.life_design < shortest->life_design)) shortest = &s;
  return shortest;
}

}  // namespace felloe
