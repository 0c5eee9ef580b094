// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that the demo's report says what its results.json says, and that what it adds for the
// report agrees with the hot spots.
#include <gtest/gtest.h>

#include <algorithm>
#include <regex>

#include "cli/report_input.h"
#include "cli/sensitivity.h"
#include "post/report/words.h"
#include "post/results_json.h"
#include "post/worst_first.h"
#include "tests/cases/demo_run.h"
#include "tests/support/markup.h"

namespace felloe {
namespace {

using test::demo;
using test::Markup;
using test::run;

const Markup &report() {
  static const Markup m = [] {
    Analysis rated;
    rated.layout = run().layout;
    rated.results = run().results;
    rated.results.sensitivities = sensitivities_of_run(run(), run().histories, demo());
    return Markup(
        report_html(report_input(demo(), rated, "title = 1\n", "felloe run case.toml -o again")));
  }();
  return m;
}

/// Verdicts of the list "tests" of results.json, in its order.
std::vector<std::string> written_verdicts() {
  std::string json = results_json(run().results);
  json = json.substr(json.find("\"tests\": ["));
  json = json.substr(0, json.find("\"gauges\""));
  const std::regex verdict("\"verdict\": \"([a-z ]+)\"");
  std::vector<std::string> all;
  for (std::sregex_iterator i(json.begin(), json.end(), verdict), end; i != end; ++i)
    all.push_back((*i)[1]);
  return all;
}

TEST(DemoReport, HoldsTheVerdictsOfResultsJson) {
  const auto verdicts = written_verdicts();
  ASSERT_EQ(verdicts.size(), 2u);
  for (std::size_t i = 0; i < verdicts.size(); ++i) {
    const std::string box = "//div[@id='verdict-" + std::to_string(i + 1) + "']";
    EXPECT_EQ(report().one(box + "/h3/span[contains(@class,'stamp')]"),
              verdicts[i] == "pass" ? "PASSED" : "FAILED");
    const TestVerdict &t = run().results.tests[i];
    const HotSpot &worst = *worst_of(run().results.hot_spots, t.name),
                  &shortest = *shortest_lived(run().results.hot_spots, t.name);
    EXPECT_EQ(report().one(box + "//div[starts-with(dt,'Life at 90')]/dd"),
              cycles_words(worst.life_design));
    EXPECT_EQ(shortest.life_design, t.life_design);
    const std::string said = report().one(box + "//div[starts-with(dt,'Shortest life')]/dd");
    if (shortest.id == worst.id)
      EXPECT_EQ(said.rfind("the same, ", 0), 0u) << said;
    else
      EXPECT_NE(said.find(cycles_words(t.life_design)), std::string::npos) << said;
  }
}

TEST(DemoReport, EveryHotSpotHasItsRow) {
  const std::string rows = "//table[@id='hot-spot-table']/tbody/tr";
  const auto &spots = run().results.hot_spots;
  ASSERT_EQ(report().count(rows), spots.size());
  EXPECT_EQ(report().one(rows + "[1]/td[2]"),
            spots[0].verdict == Verdict::pass ? "\u2713 Passed" : "\u2717 Failed");
}

TEST(DemoReport, ShowsEverySectionOfThisCase) {
  for (const char *id : {"job", "loads", "life", "mean-stress", "one-turn", "gauges", "spectrum",
                         "sensitivity", "provenance"})
    EXPECT_EQ(report().count(std::string("//section[@id='") + id + "']"), 1u) << id;
  EXPECT_EQ(report().count("//section[@id='one-turn']//svg:svg"), 2u);
}

// The trace is sampled every 5 degrees: its range may miss the exact amplitude of one harmonic by
// 1 - cos(2.5 deg) = 0.1 %.
TEST(DemoReport, TracesSwingByTheAmplitudeOfTheirHotSpot) {
  for (const HotSpot &h : run().results.hot_spots) {
    ASSERT_FALSE(h.turn.empty()) << h.feature;
    const auto [low, high] = std::minmax_element(h.turn.begin(), h.turn.end());
    EXPECT_NEAR(0.5 * (*high - *low), h.amplitude, 1.1e-3 * h.amplitude) << h.feature;
    EXPECT_NEAR(0.5 * (*high + *low), h.mean, 1.1e-3 * h.amplitude + 1e-6) << h.feature;
  }
}

TEST(DemoReport, FactorsNameSourceAndConfidence) {
  for (const Provenance &p : factors_of(demo())) {
    EXPECT_FALSE(p.source.empty()) << p.what;
    EXPECT_FALSE(p.confidence.empty()) << p.what;
  }
}

}  // namespace
}  // namespace felloe
