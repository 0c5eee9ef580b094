// SPDX-License-Identifier: GPL-3.0-or-later
// Proves the words of a running step's line: name, seconds, time left, never wider than the
// terminal.
#include "cli/progress.h"

#include <gtest/gtest.h>

namespace felloe {
namespace {

TEST(Progress, DurationsNameTheirUnit) {
  EXPECT_EQ(duration_text(0.4), "0 s");
  EXPECT_EQ(duration_text(59.4), "59 s");
  EXPECT_EQ(duration_text(80), "1:20 min");
  EXPECT_EQ(duration_text(3605), "1:00 h");
  EXPECT_EQ(duration_text(7500), "2:05 h");
}

TEST(Progress, ARunningLineSaysWhatIsLeftWhereThatIsKnown) {
  const std::string known = running_line("hub held: 17 loads", 12, 95, 99);
  EXPECT_EQ(known.find("  hub held: 17 loads "), 0u);
  EXPECT_NE(known.find(" 12 s  about 1:35 min left"), std::string::npos) << known;
  for (const double left : {0.0, -5.0, 0.5})
    EXPECT_EQ(running_line("mesh", 3, left, 99).find("left"), std::string::npos);
}

TEST(Progress, ARunningLineFitsTheTerminal) {
  EXPECT_EQ(running_line("hub held: 17 loads", 12, 95, 40).size(), 40u);
}

}  // namespace
}  // namespace felloe
