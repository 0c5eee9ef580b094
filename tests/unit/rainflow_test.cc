// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that counting gives the standard's example and that both rules for the residue hold.
#include "post/rainflow.h"

#include <gtest/gtest.h>

#include <random>

#include "mesher/error.h"

namespace felloe {
namespace {

// ASTM E1049-85, Figure 6
const std::vector<double> example{-2, 1, -3, 5, -1, 3, -4, 4, -2};

void expect_cycles(const std::vector<CountedCycle> &found,
                   const std::vector<CountedCycle> &wanted) {
  ASSERT_EQ(found.size(), wanted.size());
  for (std::size_t i = 0; i < found.size(); ++i) {
    EXPECT_EQ(found[i].range, wanted[i].range) << "cycle " << i;
    EXPECT_EQ(found[i].mean, wanted[i].mean) << "cycle " << i;
    EXPECT_EQ(found[i].count, wanted[i].count) << "cycle " << i;
  }
}

double sum_of_counts(const std::vector<CountedCycle> &cycles) {
  double sum = 0;
  for (const auto &c : cycles) sum += c.count;
  return sum;
}

std::vector<double> random_history(int n, unsigned seed) {
  std::mt19937 engine(seed);
  std::uniform_int_distribution<int> value(-50, 50);
  std::vector<double> all;
  while (static_cast<int>(all.size()) < n) {
    const double v = value(engine);
    // turning points only, so that their number is known
    const std::size_t k = all.size();
    if (k == 0 || (k == 1 && v != all[0]) ||
        (k >= 2 && (v - all[k - 1]) * (all[k - 1] - all[k - 2]) < 0))
      all.push_back(v);
  }
  return all;
}

// Counts as read in the standard; means by hand from the pairs of points that it counts.
TEST(Rainflow, CountsOfTheStandardsExample) {
  expect_cycles(rainflow(example, Residue::half_cycles), {{3, -0.5, 0.5},
                                                          {4, -1, 0.5},
                                                          {4, 1, 1},
                                                          {8, 1, 0.5},
                                                          {9, 0.5, 0.5},
                                                          {8, 0, 0.5},
                                                          {6, 1, 0.5}});
}

// Four-point rule (common practice) on the standard's example, by hand: inner range not larger than
// both neighbours.
TEST(Rainflow, ClosedRuleLeavesTheKnownResidue) {
  RainflowCounter counter(Residue::closed);
  std::vector<CountedCycle> cycles;
  for (const double v : example)
    counter.push(v, [&](const CountedCycle &c) { cycles.push_back(c); });
  expect_cycles(cycles, {{4, 1, 1}});
  EXPECT_EQ(counter.residue(), (std::vector<double>{-2, 1, -3, 5, -4, 4, -2}));
}

// By hand: the residue read twice closes 3 (mean -0.5), 7 (0.5), 9 (0.5).
TEST(Rainflow, ClosingTheResidueCountsTheLargestCycle) {
  expect_cycles(merged(rainflow(example, Residue::closed)),
                {{3, -0.5, 1}, {4, 1, 1}, {7, 0.5, 1}, {9, 0.5, 1}});
}

// The same history turned to start and end at its largest value: half cycles pair up.
TEST(Rainflow, HistoryFromItsMaximumNeedsNoClosing) {
  const std::vector<double> turned{5, -1, 3, -4, 4, -2, 1, -3, 5};
  expect_cycles(merged(rainflow(turned, Residue::half_cycles)),
                merged(rainflow(example, Residue::closed)));
}

TEST(Rainflow, TwiceTheCountIsTheNumberOfReversals) {
  for (unsigned seed = 1; seed <= 20; ++seed) {
    const auto history = random_history(501, seed);
    EXPECT_EQ(2 * sum_of_counts(rainflow(history, Residue::half_cycles)), 500);
  }
}

TEST(Rainflow, ScalingScalesRangesAndPointsBetweenChangeNothing) {
  const auto history = random_history(300, 7);
  std::vector<double> scaled, finer;
  for (const double v : history) {
    scaled.push_back(4 * v);
    if (!finer.empty()) {
      finer.push_back(0.75 * finer.back() + 0.25 * v);
      finer.push_back(finer.back());
    }
    finer.push_back(v);
  }
  for (const Residue rule : {Residue::half_cycles, Residue::closed}) {
    auto wanted = rainflow(history, rule);
    expect_cycles(rainflow(finer, rule), wanted);
    for (auto &c : wanted) c.range *= 4, c.mean *= 4;
    expect_cycles(rainflow(scaled, rule), wanted);
  }
}

// A cos t + m over whole turns, whatever the phase: one cycle of range 2 A, mean m a turn.
TEST(Rainflow, OneHarmonicIsOneCycleATurn) {
  constexpr int n = 360, turns = 3;
  for (const int phase : {0, 17, 90, 200}) {
    std::vector<double> history;
    for (int i = 0; i < turns * n; ++i)
      history.push_back(40 + 100 * std::cos(2 * 3.14159265358979323846 * (i + phase) / n));
    const auto cycles = rainflow(history, Residue::closed);
    ASSERT_EQ(cycles.size(), std::size_t(turns));
    for (const auto &c : cycles) {
      EXPECT_NEAR(c.range, 200, 1e-12 * 200);
      EXPECT_NEAR(c.mean, 40, 1e-12 * 200);
      EXPECT_EQ(c.count, 1);
    }
  }
}

// With N even samples a turn that miss both peaks by half a step the range is short by 1 - cos(pi /
// N), the mean is exact.
TEST(Rainflow, SamplesBesideThePeaksMissALittle) {
  for (const int n : {12, 36, 180}) {
    std::vector<double> history;
    for (int i = 0; i <= n; ++i)
      history.push_back(40 + 100 * std::cos(2 * 3.14159265358979323846 * (i + 0.5) / n));
    const auto cycles = merged(rainflow(history, Residue::closed));
    ASSERT_EQ(cycles.size(), 1u);
    EXPECT_NEAR(cycles[0].range, 200 * std::cos(3.14159265358979323846 / n), 1e-12 * 200);
    EXPECT_NEAR(cycles[0].mean, 40, 1e-12 * 200);
    EXPECT_EQ(cycles[0].count, 1);
  }
}

// A repeated history counted as a whole gives its closed cycles once more for every repetition.
TEST(Rainflow, RepetitionsAddTheirClosedCycles) {
  const auto history = random_history(101, 3);
  std::vector<double> thrice;
  for (int i = 0; i < 3; ++i) thrice.insert(thrice.end(), history.begin(), history.end());
  auto wanted = merged(rainflow(history, Residue::closed));
  for (auto &c : wanted) c.count *= 3;
  expect_cycles(merged(rainflow(thrice, Residue::closed)), wanted);
}

TEST(Rainflow, NothingComesFromHistoriesThatStandStill) {
  for (const Residue rule : {Residue::half_cycles, Residue::closed}) {
    EXPECT_TRUE(rainflow({}, rule).empty());
    EXPECT_TRUE(rainflow({3}, rule).empty());
    EXPECT_TRUE(rainflow({3, 3, 3}, rule).empty());
  }
  expect_cycles(rainflow({1, 4}, Residue::closed), {{3, 2.5, 1}});
  expect_cycles(rainflow({1, 4}, Residue::half_cycles), {{3, 2.5, 0.5}});
}

TEST(Rainflow, RefusesWhatIsNoNumber) {
  EXPECT_THROW(rainflow({1, std::nan(""), 2}, Residue::closed), Error);
}

}  // namespace
}  // namespace felloe
