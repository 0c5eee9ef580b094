// SPDX-License-Identifier: GPL-3.0-or-later
// The summary shows what decides, within the width of a terminal.
#include "post/summary.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <limits>
#include <sstream>

#include "tests/support/sample_results.h"

namespace felloe {
namespace {

bool contains(const std::string &text, const std::string &part) {
  return text.find(part) != std::string::npos;
}

std::string line_with(const std::string &text, const std::string &part) {
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);)
    if (contains(line, part)) return line;
  return "";
}

int widest_line(const std::string &text) {
  std::istringstream in(text);
  std::size_t widest = 0;
  for (std::string line; std::getline(in, line);)
    widest = std::max<std::size_t>(widest, std::count_if(line.begin(), line.end(), [](char c) {
                                     return (static_cast<unsigned char>(c) & 0xC0) != 0x80;
                                   }));
  return static_cast<int>(widest);
}

TEST(Summary, NoLineIsWiderThanAHundredColumns) {
  EXPECT_LE(widest_line(summary(test::sample_results(), false)), summary_columns);
}

TEST(Summary, LongNamesAndExtremeNumbersDoNotBreakTheWidth) {
  Results r = test::sample_results();
  const std::string long_name = "Felge \xc3\xbc" + std::string(300, 'x');
  r.title = r.case_file = r.program_version = long_name;
  for (HotSpot &h : r.hot_spots) {
    h.id = 99;
    h.feature = h.test = h.side = long_name;
    h.r = h.z = -9999.9;
    h.theta_deg = -359.9;
    h.mean = h.amplitude = -99999;
    h.error_percent = 99.9;
    h.life_p50 = h.life_design = 1.23456e12;
    h.required_cycles = 1e12;
  }
  for (TestVerdict &t : r.tests) t.name = t.load_unit = t.confidence = t.kind = long_name;
  r.assumptions = {long_name + " from memory"};
  r.cautions = {long_name + " " + long_name};
  r.mesh.cells = r.mesh.dofs = 2000000000;
  r.stiffness = {1.234567e9, 1.234567e9, 1.234567e9};
  r.mass_kg = r.disc_mass_kg = r.rim_mass_kg = 123456789.123;
  EXPECT_LE(widest_line(summary(r, false)), summary_columns);
}

TEST(Summary, ShowsVerdictMassStiffnessAndTheWorstHotSpot) {
  const std::string text = summary(test::sample_results(), false);
  EXPECT_TRUE(contains(text, "FAIL"));
  EXPECT_TRUE(contains(text, "1 of 2 rig tests passed at 90 % survival"));
  EXPECT_TRUE(contains(text, "8.125 kg"));
  EXPECT_TRUE(contains(text, "tilt 18.4 kN m/deg"));
  EXPECT_FALSE(contains(text, "axial"));  // not computed
  const std::string row = line_with(text, "vent edge outboard");
  for (const char *part :
       {"111.8", "26.6", "20.0", "182", "64", "1.23e5", "4.50e4", " 136 ", "FAIL"})
    EXPECT_TRUE(contains(row, part)) << part << " in: " << row;
}

TEST(Summary, ShowsFrequenciesOnlyWhenTheyWereAskedFor) {
  Results r = test::sample_results();
  EXPECT_TRUE(contains(line_with(summary(r, false), "free wheel"), "231.2 240.5"));
  EXPECT_TRUE(contains(line_with(summary(r, false), "hub held"), "88.8"));
  r.modes.clear();
  EXPECT_FALSE(contains(summary(r, false), "natural frequencies"));
}

TEST(Summary, ShowsTheHubContactOfEveryRigTest) {
  Results r = test::sample_results();
  EXPECT_FALSE(contains(summary(r, false), "% open"));
  ContactFigures f;
  f.test = "cornering";
  f.open_share = 0.75;
  f.smallest_bolt_force_N = 32000;
  f.largest_bolt_force_N = 34500;
  r.contact = {f};
  EXPECT_TRUE(contains(line_with(summary(r, false), "cornering:"),
                       "75 % open   bolts 32.0 to 34.5 kN   stepped"));
  EXPECT_FALSE(contains(summary(r, false), "slip"));
  r.contact[0].friction = {0.15, 0.25, 0.002, 3.4};
  EXPECT_TRUE(contains(line_with(summary(r, false), "friction 0.15"),
                       "25 % of the pressed nodes slip, 2.0 um at most   margin 3.4"));
}

TEST(Summary, NamesInfiniteAndUnratedLives) {
  const std::string text = summary(test::sample_results(), false);
  EXPECT_TRUE(contains(line_with(text, "weld toe disc"), "inf."));
  const std::string unrated = line_with(text, "border of the");
  EXPECT_FALSE(contains(unrated, "1.23e5"));
  EXPECT_FALSE(contains(unrated, "PASS"));
}

TEST(Summary, ListsOnlyAssumptionsOfLowConfidence) {
  const std::string text = summary(test::sample_results(), false);
  EXPECT_TRUE(contains(text, "sheared-edge factor 0.8"));
  EXPECT_FALSE(contains(text, "density 7850"));
  EXPECT_TRUE(contains(text, "'rotating bending': factors second-hand"));
}

TEST(Summary, ColoursOnlyWhenAsked) {
  EXPECT_FALSE(contains(summary(test::sample_results(), false), "\033"));
  EXPECT_TRUE(contains(summary(test::sample_results(), true), "\033[1;31mFAIL"));
}

TEST(Summary, ControlCharactersOfNamesDoNotReachTheTerminal) {
  Results r = test::sample_results();
  r.title = "evil \033[2J title";
  EXPECT_FALSE(contains(summary(r, false), "\033"));
}

TEST(Summary, TellsHowManyHotSpotsItLeavesOut) {
  Results r = test::sample_results();
  r.hot_spots.resize(17, r.hot_spots[0]);
  EXPECT_TRUE(contains(summary(r, false), "7 more in results.json"));
}

TEST(CyclesText, IsShortAndRoundsOverTheDecade) {
  EXPECT_EQ(cycles_text(850), "850");
  EXPECT_EQ(cycles_text(9999.4), "9999");
  EXPECT_EQ(cycles_text(99999), "1.00e5");
  EXPECT_EQ(cycles_text(1.234e6), "1.23e6");
  EXPECT_EQ(cycles_text(std::numeric_limits<double>::infinity()), "infinite");
  EXPECT_EQ(cycles_text(std::numeric_limits<double>::quiet_NaN()), "-");
}

}  // namespace
}  // namespace felloe
