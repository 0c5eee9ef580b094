// SPDX-License-Identifier: GPL-3.0-or-later
// Proves the damage sum on hand-computed blocks and the rules below the knee.
#include "post/miner.h"

#include <gtest/gtest.h>

#include <cmath>

namespace felloe {
namespace {

/// N = 2e6 (90 / S)^3 in ranges.
SnCurve class_90() {
  SnCurve c;
  c.knee_amplitude = 90;
  c.knee_cycles = 2e6;
  c.slope = c.slope_below = 3;
  c.stress_range = true;
  return c;
}

const std::vector<StressBlock> blocks{{150, 1e5}, {100, 5e5}, {60, 2e6}};

// Linear damage sum of Palmgren (1924) and Miner (J. Appl. Mech. 12, 1945) on an IIW class (from
// memory): N = 432000, 1458000, 6750000 by the formula; D = 1e5/432000 + 5e5/1458000 + 2e6/6750000.
TEST(Miner, DamageOfThreeBlocks) {
  EXPECT_NEAR(cycles_to_failure(class_90(), 150, 0.5), 432000, 1e-6);
  EXPECT_NEAR(cycles_to_failure(class_90(), 100, 0.5), 1458000, 1e-5);
  EXPECT_NEAR(cycles_to_failure(class_90(), 60, 0.5), 6750000, 1e-5);
  EXPECT_NEAR(miner_damage(blocks, class_90(), 0.5), 0.8707133059, 1e-10);
}

// ((1e5 150^3 + 5e5 100^3 + 2e6 60^3) / 2.6e6)^(1/3)
TEST(Miner, EquivalentRangeDoesTheSameDamage) {
  const double s = equivalent_stress(blocks, 3);
  EXPECT_NEAR(s, 78.7444195, 1e-7);
  EXPECT_NEAR(miner_damage(std::vector<StressBlock>{{s, 2.6e6}}, class_90(), 0.5), 0.8707133059,
              1e-10);
}

TEST(Miner, CountedCyclesAreCorrectedForTheirMean) {
  SnCurve c = class_90();
  c.stress_range = false;
  // FKM, M = 0.11: amplitude 100 at mean 100 counts as 111
  const std::vector<CountedCycle> cycles{{200, 100, 1}, {200, 0, 0.5}};
  EXPECT_NEAR(miner_damage(cycles, c, 0.5, 0.11),
              std::pow(111 / 90.0, 3) / 2e6 + 0.5 * std::pow(100 / 90.0, 3) / 2e6, 1e-15);
}

TEST(Miner, RulesBelowTheKnee) {
  SnCurve c = class_90();
  c.slope_below = 0;
  const auto at_half = [&](BelowKnee rule) {
    return damage_of_cycle(for_spectrum(c, rule), 45, 0.5) * 2e6;
  };
  EXPECT_EQ(at_half(BelowKnee::as_curve), 0);
  EXPECT_NEAR(at_half(BelowKnee::continued), 1 / 8.0, 1e-14);
  EXPECT_NEAR(at_half(BelowKnee::flat_branch), 1 / 32.0, 1e-14);  // slope 2 x 3 - 1
}

}  // namespace
}  // namespace felloe
