// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that the default criterion is the one that the published tests speak for.
#include "post/bending_torsion_tests.h"

#include <gtest/gtest.h>

namespace felloe {
namespace {

// Nishihara and Kawamoto: 10 tests of a hard and 8 of a mild steel.
TEST(PublishedTests, TenAndEightWithoutStaticStress) {
  int n = 0;
  for (const auto &series : bending_torsion_series()) {
    EXPECT_FALSE(series.source.empty());
    EXPECT_NE(series.confidence.find("from memory"), std::string::npos);
    if (!series.with_static_stress) n += static_cast<int>(series.tests.size());
  }
  EXPECT_EQ(n, 18);
  EXPECT_EQ(errors_on_published_tests(default_criterion(), false).n, 18);
  EXPECT_EQ(errors_on_published_tests(default_criterion(), true).n, 19);
}

// A common rule for choosing a method: mean size below 5 %, no more than 5 % on the unsafe side
// (common practice, no source).
TEST(DefaultCriterion, StaysWithinFivePercent) {
  const auto e = errors_on_published_tests(default_criterion(), false);
  EXPECT_LT(e.mean_size, 5);
  EXPECT_GT(e.lowest, -5);
}

TEST(DefaultCriterion, NoRowScattersLessWithoutStaticStress) {
  const auto best = errors_on_published_tests(default_criterion(), false);
  for (const auto &row : fatigue_criteria())
    EXPECT_GE(errors_on_published_tests(row, false).scatter, best.scatter - 1e-3) << row.name;
}

// None of those that stay within 5 % on the unsafe side without static stress goes much further
// with it: Matake -21.7 %, Papadopoulos -15.3 %.
TEST(DefaultCriterion, ErrsOnTheUnsafeSideByLessThanASixthWithStaticStress) {
  EXPECT_GT(errors_on_published_tests(default_criterion(), true).lowest, -17);
}

// Errors of the ten and eight rows, worked out independently from the definitions: on the unsafe
// side at worst -17.81 % (Dang Van, Crossland, hard steel no. 8), -38.52 % (normal stress, mild
// steel no. 3), -3.68 % (Papadopoulos, mild steel no. 7).
TEST(PublishedTests, LargestErrorsOnTheUnsafeSide) {
  const auto lowest = [](const char *name) {
    return errors_on_published_tests(fatigue_criterion(name), false).lowest;
  };
  EXPECT_NEAR(lowest("Crossland"), -17.81, 0.025);
  EXPECT_NEAR(lowest("Dang Van"), -17.81, 0.025);
  EXPECT_NEAR(lowest("normal stress plane"), -38.52, 0.025);
  EXPECT_NEAR(lowest("Papadopoulos"), -3.68, 0.025);
  EXPECT_NEAR(lowest("Findley"), -3.45, 0.025);
  EXPECT_NEAR(lowest("limited Findley"), -3.45, 0.025);
}

TEST(DefaultCriterion, SaysWhy) {
  const std::string why = why_default_criterion();
  EXPECT_NE(why.find(default_criterion().name), std::string::npos);
  EXPECT_NE(why.find("18 tests"), std::string::npos);
}

}  // namespace
}  // namespace felloe
