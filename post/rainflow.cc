// SPDX-License-Identifier: GPL-3.0-or-later
// Rainflow counting of whole histories.
#include "post/rainflow.h"

#include <algorithm>
#include <string>

#include "mesher/error.h"

namespace felloe {

std::vector<CountedCycle> rainflow(const std::vector<double> &history, Residue rule) {
  RainflowCounter counter(rule);
  std::vector<CountedCycle> cycles;
  const auto collect = [&](const CountedCycle &c) { cycles.push_back(c); };
  for (std::size_t i = 0; i < history.size(); ++i) {
    if (!std::isfinite(history[i]))
      throw Error("rainflow counting: value " + std::to_string(i + 1) +
                  " of the history is not a finite number; repair the history");
    counter.push(history[i], collect);
  }
  counter.finish(collect);
  return cycles;
}

std::vector<CountedCycle> merged(std::vector<CountedCycle> cycles) {
  std::sort(cycles.begin(), cycles.end(), [](const CountedCycle &a, const CountedCycle &b) {
    return a.range != b.range ? a.range < b.range : a.mean < b.mean;
  });
  std::vector<CountedCycle> out;
  for (const CountedCycle &c : cycles)
    if (!out.empty() && out.back().range == c.range && out.back().mean == c.mean)
      out.back().count += c.count;
    else
      out.push_back(c);
  return out;
}

}  // namespace felloe
