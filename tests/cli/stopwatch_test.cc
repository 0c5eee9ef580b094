// SPDX-License-Identifier: GPL-3.0-or-later
// Proves where the stopwatch of a run books time: work burnt on a processor, sleep, and the work of
// other threads. Only bounds that hold on a machine of any speed and load are asked for.
#include "cli/stopwatch.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <ctime>
#include <thread>

namespace felloe {
namespace {

constexpr double spell = 0.05;  // [s]

/// Keeps a processor busy until this process has used that much more of it.
void burn() {
  const std::clock_t begin = std::clock();
  while (double(std::clock() - begin) < spell * CLOCKS_PER_SEC) {
  }
}

void nap() { ::usleep(static_cast<useconds_t>(1e6 * spell)); }

TEST(Stopwatch, TellsWorkFromWaitingAndAddsStepsOfOneName) {
  Stopwatch watch;
  watch.start("solve", Work::analysis);
  burn();
  watch.start("write", Work::writing);
  nap();
  watch.start("solve", Work::analysis);
  burn();
  watch.stop();
  const RunTimes t = watch.times();
  ASSERT_EQ(t.steps.size(), 2u);
  const StepTime &solve = t.steps[0], &write = t.steps[1];
  EXPECT_EQ(solve.step, "solve");
  EXPECT_FALSE(solve.writes);
  EXPECT_GT(solve.processor_s, 1.9 * spell);  // two spells, less what clock() and the kernel round
  EXPECT_TRUE(write.writes);
  EXPECT_GT(write.wall_s, 0.99 * spell);
  EXPECT_LT(write.processor_s, 0.5 * spell);
  EXPECT_DOUBLE_EQ(t.writing_wall_s, write.wall_s);
  EXPECT_GE(t.wall_s, solve.wall_s + write.wall_s);
}

TEST(Stopwatch, CountsTheWorkOfOtherThreads) {
  Stopwatch watch;
  watch.start("draw", Work::writing);
  std::thread(burn).join();
  watch.stop();
  const RunTimes t = watch.times();
  EXPECT_GT(t.steps.front().processor_s, 0.9 * spell);
  EXPECT_DOUBLE_EQ(t.writing_processor_s, t.steps.front().processor_s);
  EXPECT_GE(t.processor_s, t.writing_processor_s);
}

}  // namespace
}  // namespace felloe
