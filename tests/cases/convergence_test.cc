// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that the demo wheel's worst hot spots hardly move when the mesh is twice as dense.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <string>

#include "cli/analysis.h"
#include "cli/case_file.h"
#include "solver/memory.h"

namespace felloe {
namespace {

Results run(double density) {
  Case c = read_case(std::string(FELLOE_CASES) + "/steel_15x6/case.toml");
  c.mesh.density = density;
  Progress progress(false);
  return analyse(c, progress).results;
}

TEST(DemoWheel, DoublingTheDensityMovesTheWorstHotSpotsByLessThanFivePercent) {
  constexpr double needed = 12;  // GB at double density, some room included
  const double free = 1e-9 * free_memory();
  if (free < needed) GTEST_SKIP() << "needs " << needed << " GB of free memory, there are " << free;
  const Results coarse = run(1), fine = run(2);
  int compared = 0;
  for (const HotSpot &c : coarse.hot_spots) {
    if (compared == 5) break;
    bool found = false;
    for (const HotSpot &f : fine.hot_spots) {
      if (f.feature != c.feature || f.test != c.test) continue;
      found = true;
      std::printf("%-24s %-10s %8.2f %8.2f MPa %+.2f %%\n", c.feature.c_str(), c.test.c_str(),
                  c.fully_reversed, f.fully_reversed,
                  100 * (f.fully_reversed / c.fully_reversed - 1));
      EXPECT_NEAR(f.fully_reversed / c.fully_reversed, 1, 0.05) << c.feature << ", " << c.test;
    }
    EXPECT_TRUE(found) << c.feature << ", " << c.test << " is no hot spot of the finer mesh";
    ++compared;
  }
  EXPECT_EQ(compared, 5);
}

}  // namespace
}  // namespace felloe
