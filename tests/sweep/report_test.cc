// SPDX-License-Identifier: GPL-3.0-or-later
// Best designs, compromises, table and pictures say what the store holds.
#include <gtest/gtest.h>

#include <limits>

#include "cli/sweep/sweep_pictures.h"
#include "cli/sweep/sweep_progress.h"
#include "cli/sweep/sweep_report.h"
#include "tests/sweep/cheap_model.h"

namespace felloe {
namespace {

StoredDesign design(long id, double mass, double life, double tilt) {
  StoredDesign d;
  d.id = id;
  d.values = {double(id)};
  d.state = JobState::done;
  d.attempts = 1;
  d.figures.mass_kg = mass;
  d.figures.tilt_Nm_per_deg = tilt;
  TestFigures t;
  t.test = "cornering, hot";
  t.feature = "vent edge";
  t.stress_MPa = 100;
  t.allowed_stress_MPa = 120;
  t.required_cycles = 1e5;
  t.life_design = life * 1e5;
  t.verdict = life >= 1 ? Verdict::pass : Verdict::fail;
  d.figures.tests = {t};
  d.figures.verdict = t.verdict;
  return d;
}

constexpr double never = std::numeric_limits<double>::infinity();

Designs five() {
  return {design(1, 8, 2, 50), design(2, 7, 0.5, 40), design(3, 7.5, 3, 45), design(4, 8, 2, 49),
          design(5, 9, never, 45)};
}

std::vector<long> ids(const Designs &d, const std::vector<std::size_t> &places) {
  std::vector<long> all;
  for (const std::size_t i : places) all.push_back(d[i].id);
  return all;
}

TEST(Ranking, LightestAreThoseThatPass) {
  EXPECT_EQ(ids(five(), lightest(test::disc_head(), five(), 2)), (std::vector<long>{3, 1}));
}

TEST(Ranking, CompromisesAreBeatenByNone) {
  // 4 is as heavy and long-lived as 1 but softer; all others are best in something
  EXPECT_EQ(ids(five(), pareto_front(test::disc_head(), five())), (std::vector<long>{2, 3, 1, 5}));
}

TEST(Ranking, OnlyTheDeepestModelCounts) {
  SweepHead head = test::disc_head();
  head.first = Depth::section;
  head.screened = true;
  Designs designs = five();
  designs[2].depth = Depth::section;
  EXPECT_EQ(ids(designs, lightest(head, designs, 9)), (std::vector<long>{1, 4, 5}));
}

TEST(Ranking, ReasonsThatDifferInNumbersAreOne) {
  Designs designs = five();
  const char *reasons[] = {"holes 2.5 mm apart", "holes 3 mm apart", "signal 11"};
  for (int i = 0; i < 3; ++i)
    designs[std::size_t(i)].state = JobState::failed, designs[std::size_t(i)].reason = reasons[i];
  const auto found = failure_reasons(designs);
  ASSERT_EQ(found.size(), 2u);
  EXPECT_EQ(found[0].count, 2);
  EXPECT_EQ(found[0].example, "holes 2.5 mm apart");
}

TEST(Table, HasOneLineADesignAndQuotesCommas) {
  const std::string table = sweep_table(test::disc_head(), five());
  EXPECT_EQ(table.rfind("design,disc.thickness_mm,depth,state,verdict,mass_kg,", 0), 0u) << table;
  EXPECT_NE(table.find(",\"cornering, hot stress_MPa\","), std::string::npos) << table;
  EXPECT_NE(
      table.find("\n5,5,wheel,done,pass,9,,45,,,1.2,inf,vent edge,100,120,,0,inf,100000,pass,"),
      std::string::npos)
      << table;
  EXPECT_EQ(std::count(table.begin(), table.end(), '\n'), 6);
}

TEST(Summary, CountsAndNamesTheBest) {
  const std::string text = sweep_summary(test::disc_head(), five(), "out");
  EXPECT_NE(text.find("5 designs: 5 computed, 0 failed; 4 pass every rig test"), std::string::npos)
      << text;
  EXPECT_NE(text.find("no crack"), std::string::npos) << text;
  const std::string json = sweep_json(test::disc_head(), five(), "out");
  EXPECT_NE(json.find("\"passed\": 4"), std::string::npos) << json;
}

TEST(Pictures, ShowEveryDesign) {
  const std::string pareto = pareto_picture(test::disc_head(), five());
  const auto count = [](const std::string &text, const std::string &part) {
    int n = 0;
    for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++n;
    return n;
  };
  EXPECT_EQ(count(pareto, "r=\"3.00\""), 10);  // five designs in two plots
  EXPECT_NE(pareto.find(">no crack<"), std::string::npos);
  const std::string parallel = parallel_picture(test::disc_head(), five());
  EXPECT_EQ(count(parallel, "class=\"pass-line\""), 4);
  EXPECT_EQ(count(parallel, "class=\"fail-line\""), 1);
  for (const std::string &svg :
       {pareto, parallel, pareto_picture({}, {}), parallel_picture({}, {})})
    EXPECT_EQ(svg.find("nan"), std::string::npos) << svg;
}

TEST(Progress, TellsRateAndTimeLeft) {
  Counts c;
  c.queued = 290;
  c.running = 2;
  c.done = 100;
  c.failed = 8;
  EXPECT_EQ(progress_line(c, 8, 200, "lightest that passes 7.620 kg (design 5)"),
            "108 of 400 (8 failed), 1800 an hour, 9:44 min left, lightest that passes 7.620 kg "
            "(design 5)");
  EXPECT_EQ(progress_line(c, 108, 5, ""), "108 of 400 (8 failed)");
}

}  // namespace
}  // namespace felloe
