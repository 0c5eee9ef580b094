// SPDX-License-Identifier: GPL-3.0-or-later
// Proves the estimate of the time left: the cost model's seconds for the solves, what follows by
// unknowns, meshes that are still to come, and the pace of this machine.
#include "cli/outlook.h"

#include <gtest/gtest.h>

#include "solver/cost_model.h"

namespace felloe {
namespace {

SolveTask task() {
  SolveTask t;
  t.dofs = 160000;
  t.sectors = 5;
  t.mirrored = true;
  t.cut_dofs = 2400;
  t.slenderness = 3;
  t.n_supports = 2;
  t.n_loads = 23;
  t.n_threads = 2;
  return t;
}

Outlook predicted(double growth, bool writes_fields, const SolveTask &t, bool matrix_free = false) {
  Outlook o;
  o.growth = growth;
  o.writes_fields = writes_fields;
  o.predict(t, matrix_free);
  return o;
}

TEST(Outlook, SolvesTakeWhatTheCostModelSays) {
  EXPECT_DOUBLE_EQ(predicted(1, true, task()).solves, direct_cost(task()).seconds);
  EXPECT_DOUBLE_EQ(predicted(1, true, task(), true).solves, matrix_free_cost(task()).seconds);
}

TEST(Outlook, RatingAndWritingGrowWithTheUnknowns) {
  SolveTask twice = task();
  twice.dofs *= 2;
  for (const bool writes : {false, true}) {
    const double once = predicted(1, writes, task()).after_solves;
    EXPECT_GT(once, 0);
    EXPECT_NEAR(predicted(1, writes, twice).after_solves, 2 * once, 1e-12 * once);
  }
  EXPECT_GT(predicted(1, true, task()).after_solves, predicted(1, false, task()).after_solves);
}

// Four times the cells of a sheet: four times the unknowns, twice those of a cut, half the length.
TEST(Outlook, AFinerMeshIsSolvedAndRatedTooAndOnlyTheLastIsWritten) {
  SolveTask finer = task();
  finer.dofs *= 4;
  finer.cut_dofs *= 2;
  finer.slenderness /= 2;
  const double rating = predicted(1, false, task()).after_solves;
  const double writing = predicted(1, true, task()).after_solves - rating;
  for (const bool matrix_free : {false, true}) {
    const double solve = (matrix_free ? matrix_free_cost(finer) : direct_cost(finer)).seconds;
    EXPECT_NEAR(predicted(4, false, task(), matrix_free).after_solves, solve + 5 * rating, 1e-9);
    EXPECT_NEAR(predicted(4, true, task(), matrix_free).after_solves,
                solve + 5 * rating + 4 * writing, 1e-9);
  }
}

TEST(Outlook, ASlowMachineNeedsMoreForAll) {
  Outlook o = predicted(4, true, task());
  const double before = o.seconds_before_solves(), after = o.seconds_after_solves();
  EXPECT_NEAR(before - after, o.solves, 1e-9);
  o.pace = 2.5;
  EXPECT_NEAR(o.seconds_before_solves(), 2.5 * before, 1e-9);
  EXPECT_NEAR(o.seconds_after_solves(), 2.5 * after, 1e-9);
}

}  // namespace
}  // namespace felloe
