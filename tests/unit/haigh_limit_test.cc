// SPDX-License-Identifier: GPL-3.0-or-later
// The limit line is the criterion's own.
#include <gtest/gtest.h>

#include "post/haigh_limit.h"

namespace felloe {
namespace {

FatigueConstants constants() {
  FatigueConstants c = fatigue_constants(material("S420MC"));
  c.mean_stress = &mean_stress_rule("FKM");
  return c;
}

// FKM guideline: amplitude + M mean = fully reversed amplitude for -infinity < R <= 0.
TEST(HaighLimit, FkmLineBetweenZeroMeanAndPulsatingTension) {
  const FatigueConstants c = constants();
  int checked = 0;
  for (const auto &[mean, amplitude] :
       haigh_limit(fatigue_criterion("normal stress plane"), c, 200, -100, 400)) {
    if (mean < -amplitude || mean > amplitude) continue;
    EXPECT_NEAR(amplitude + c.mean_stress_sensitivity * mean, 200, 1e-4);
    ++checked;
  }
  EXPECT_GT(checked, 30);
}

TEST(HaighLimit, EveryCriterionBearsItsAllowedAmplitudeAtZeroMean) {
  for (const FatigueCriterion &criterion : fatigue_criteria()) {
    const auto line = haigh_limit(criterion, constants(), 180, -1, 1);
    ASSERT_FALSE(line.empty()) << criterion.name;
    EXPECT_NEAR(line[line.size() / 2][1], 180, 1e-3) << criterion.name;
  }
}

}  // namespace
}  // namespace felloe
