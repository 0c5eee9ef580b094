// SPDX-License-Identifier: GPL-3.0-or-later
// The report says what the results hold, draws points where they belong, and shows foreign text as
// text.
#include <gtest/gtest.h>

#include <cmath>
#include <regex>
#include <set>

#include "post/html/digest.h"
#include "post/report/report.h"
#include "post/report/words.h"
#include "tests/support/markup.h"
#include "tests/support/sample_results.h"

namespace felloe {
namespace {

using test::Markup;

/// 200 MPa at 1e6 cycles, slope 5, no scatter: every number below follows from it by hand.
SnCurve curve() {
  SnCurve sn;
  sn.name = "parent metal";
  sn.knee_amplitude = 200;
  sn.knee_cycles = 1e6;
  sn.slope = 5;
  sn.survival = 0.9;
  return sn;
}

ReportInput sample_input() {
  ReportInput in;
  in.results = test::sample_results();
  in.rules.criterion = &fatigue_criterion("normal stress plane");
  in.rules.mean_stress = &default_mean_stress_rule();
  in.rules.survival = 0.9;
  in.rules.materials[Part::disc] = material("S420MC");
  in.results.hot_spots.resize(2);
  HotSpot &fails = in.results.hot_spots[0], &passes = in.results.hot_spots[1];
  fails.fully_reversed = 400;  // twice the knee: 1e6 / 2^5 = 31250 cycles
  fails.error_percent = 5;
  rate(fails, curve(), 0.9, 1.25e5);
  fails.amplitude = 350;
  fails.mean = 60;
  for (int i = 0; i < 72; ++i) fails.turn.push_back(60 + 350 * std::cos(i * pi / 36));
  passes.test = "radial";
  passes.fully_reversed = 100;
  rate(passes, curve(), 0.9, 1e6);
  in.results.tests[0].required_cycles = 1.25e5;
  in.results.tests[0].life_design = fails.life_design;
  in.case_text = "title = 1\n";
  in.command = "felloe run case.toml -o again";
  in.date = "2026-01-02 03:04 UTC";
  in.wheel = {{"Rim", "15 x 6 J"}};
  in.factors = {{"rig test", "S 1.5", "a source", "second-hand, verify"},
                {"density", "7850", "a table", "found"}};
  return in;
}

/// Coordinate of a value on a logarithmic axis whose decades stand at two places.
double on_log_axis(double value, double first, double at_first, double second, double at_second) {
  return at_first + (at_second - at_first) * std::log(value / first) / std::log(second / first);
}

double coordinate(const Markup &m, const std::string &text, const char *name,
                  const std::string &anchor) {
  return std::stod(m.one("//svg:svg[@id='sn-plot-1']//svg:text[.='" + text +
                         "' and @class='tick' and @text-anchor='" + anchor + "']/@" + name));
}

TEST(ReportWords, FiguresKeepTheirDigits) {
  EXPECT_EQ(figure_text(2310.5), "2310");
  EXPECT_EQ(figure_text(0.0125), "0.0125");
  EXPECT_EQ(figure_text(-12.34, 3), "\u221212.3");
  EXPECT_EQ(figure_text(1234567, 9), "1\u202F234\u202F567");
  EXPECT_EQ(figure_text(NAN), "\u2013");
  EXPECT_EQ(fixed_text(-0.04, 1), "0.0");
}

TEST(ReportWords, CyclesInThreeFigures) {
  EXPECT_EQ(cycles_words(850), "850");
  EXPECT_EQ(cycles_words(31250), "31\u202F300");
  EXPECT_EQ(cycles_words(999600), "1.00 \u00D7 10\u2076");
  EXPECT_EQ(cycles_words(1.234e7), "1.23 \u00D7 10\u2077");
  EXPECT_EQ(cycles_words(INFINITY), "infinite");
}

TEST(ReportWords, RangeFollowsTheErrorBar) {
  const HotSpot h = sample_input().results.hot_spots[0];
  // 1e6 / (2 x 1.05)^5 = 24485 and 1e6 / (2 x 0.95)^5 = 40386
  EXPECT_EQ(life_range(h, 0.9), "24\u202F500 to 40\u202F400");
  EXPECT_FALSE(within_error(h, 0.9));
  HotSpot close = h;
  close.required_cycles = 30000;
  EXPECT_TRUE(within_error(close, 0.9));
}

TEST(Report, SaysVerdictLifeAndMargin) {
  const Markup m(report_html(sample_input()));
  EXPECT_EQ(m.one("//div[@class='overall']/span"), "FAILED");
  EXPECT_EQ(m.one("//div[@id='verdict-1']/h3/span[contains(@class,'stamp')]"), "FAILED");
  EXPECT_EQ(m.one("//div[@id='verdict-2']/h3/span[contains(@class,'stamp')]"), "PASSED");
  const auto fact = [&](const std::string &name) {
    return m.one("//div[@id='verdict-1']//div[dt='" + name + "']/dd");
  };
  EXPECT_EQ(fact("Life at 90 % survival"), "31\u202F300");
  EXPECT_EQ(fact("Shortest life of all places"), "the same, 0.25 times the required cycles");
  // allowed at 1.25e5 cycles: 200 x 8^(1/5) = 303 MPa
  EXPECT_EQ(fact("Allowed stress used"), "132 % (400 of 303 MPa, fully reversed)");
  EXPECT_EQ(m.one("//section[@id='reproduce']//div[dt='SHA-256 of case.toml']/dd"),
            sha256_hex("title = 1\n"));
}

TEST(Report, NamesThePlaceOfTheShortestLifeWhereItIsNotTheWorst) {
  ReportInput in = sample_input();
  HotSpot weld = in.results.hot_spots[1];  // the worst of its test bears 200 MPa for ever
  weld.id = 3;
  weld.feature = "weld toe disc";
  weld.fully_reversed = 50;
  SnCurve sloping = curve();
  sloping.slope_below = 5;
  rate(weld, sloping, 0.9, 1e6);  // 1e6 x 4^5 cycles
  in.results.hot_spots.push_back(weld);
  const Markup m(report_html(in));
  const auto fact = [&](const std::string &name) {
    return m.one("//div[@id='verdict-2']//div[dt='" + name + "']/dd");
  };
  EXPECT_EQ(fact("Allowed stress used"), "50 % (100 of 200 MPa, fully reversed)");
  EXPECT_EQ(fact("Life at 90 % survival"), "infinite");
  EXPECT_EQ(fact("Shortest life of all places"),
            "No. 3, weld toe disc: 1.02 \u00D7 10\u2079, 1024 times the required cycles");
}

TEST(Report, RatedPointsStandWhereTheyBelong) {
  const Markup m(report_html(sample_input()));
  const std::string mark = "//svg:svg[@id='sn-plot-1']/svg:circle[@class='series-0']/@";
  EXPECT_NEAR(std::stod(m.one(mark + "cx")),
              on_log_axis(31250, 1e5, coordinate(m, "10\u2075", "x", "middle"), 1e6,
                          coordinate(m, "10\u2076", "x", "middle")),
              0.02);
  EXPECT_NEAR(std::stod(m.one(mark + "cy")) + 4,  // ticks' letters stand 4 px lower
              on_log_axis(400, 100, coordinate(m, "100", "y", "end"), 200,
                          coordinate(m, "200", "y", "end")),
              0.02);
  EXPECT_EQ(m.count("//svg:svg[@id='sn-plot-2']"), 0u);  // both places have one curve
}

TEST(Report, OneTurnReachesItsExtremes) {
  const Markup m(report_html(sample_input()));
  const std::string trace =
      m.one("//svg:svg[@id='turn-plot-1']/svg:polyline[contains(@class,'line-0')]/@points");
  // largest at 0 degrees: to the right of the middle; smallest opposite, nearer to it
  const std::regex pair("([0-9.]+),([0-9.]+)");
  std::vector<std::array<double, 2>> points;
  for (std::sregex_iterator p(trace.begin(), trace.end(), pair), end; p != end; ++p)
    points.push_back({std::stod((*p)[1]), std::stod((*p)[2])});
  ASSERT_EQ(points.size(), 73u);
  EXPECT_EQ(points.front(), points.back());
  const double middle_y = points[0][1];
  EXPECT_NEAR(points[36][1], middle_y, 0.02);
  // the middle lies a quarter of the range below the smallest stress: 1.25 to 0.25
  const double middle_x = points[36][0] + (points[0][0] - points[36][0]) * 0.25 / 1.5;
  EXPECT_NEAR((points[0][0] - middle_x) / (middle_x - points[36][0]), 5, 0.01);
}

TEST(Report, ForeignTextStaysText) {
  ReportInput in = sample_input();
  const std::string bad = "\"><script>alert(1)</script>'\u202E" + std::string(3000, 'x');
  in.results.title = in.results.case_file = in.results.tests[0].name = bad;
  in.results.hot_spots[0].test = in.results.hot_spots[0].feature = bad;
  in.results.gauges[0].name = in.results.gauges[0].test = bad;
  in.results.sensitivities[0].test = bad;
  in.results.spectrum[0].block = "\xff\xfe<img src=x onerror=alert(1)>";
  in.results.cautions.push_back(bad);
  in.wheel = {{bad, bad}};
  in.factors = {{bad, bad, bad, bad}};
  in.pictures = {{bad, bad, "not a picture"}};
  in.command = bad;
  const Markup m(report_html(in));
  EXPECT_EQ(m.count("//script"), 0u);
  EXPECT_EQ(m.count("//*[@onerror]"), 0u);
  EXPECT_NE(m.one("//h1").find("<script>alert(1)</script>'[U+202E]xxx"), std::string::npos);
}

TEST(Report, SectionsHaveTheirIds) {
  const Markup m(report_html(sample_input()));
  EXPECT_EQ(
      m.all("//section/@id"),
      (std::vector<std::string>{"verdict", "job", "loads", "hot-spots", "life", "mean-stress",
                                "one-turn", "figures", "gauges", "spectrum", "sensitivity",
                                "accuracy", "provenance", "cautions", "reproduce", "signatures"}));
  EXPECT_EQ(m.count("//section/h2"), m.count("//nav//a"));
}

TEST(Report, BringsTheInteractiveViewWithItsScript) {
  ReportInput in = sample_input();
  in.view_3d = {"<div id=\"wheel-view\"></div>", {}, {"let shown = 1;"}};
  const std::string page = report_html(in);
  const Markup m(page);
  EXPECT_EQ(m.count("//section[@id='view-3d']/div[@id='wheel-view']"), 1u);
  EXPECT_NE(
      m.one("//meta[@http-equiv]/@content").find("'sha256-" + sha256_base64("let shown = 1;")),
      std::string::npos);
}

TEST(Report, EveryPlotHasWordsAndEveryTableACaption) {
  const Markup m(report_html(sample_input()));
  EXPECT_EQ(m.count("//table"), m.count("//table/caption[string-length(.) > 10]"));
  EXPECT_EQ(m.count("//svg:svg[@role='img']"),
            m.count("//svg:svg[@role='img' and svg:title and string-length(svg:desc) > 10]"));
  EXPECT_EQ(m.count("//th[not(@scope)]"), 0u);
  // an id twice would break links and names
  const auto ids = m.all("//@id");
  EXPECT_EQ(std::set<std::string>(ids.begin(), ids.end()).size(), ids.size());
}

TEST(Report, WeakFactorsAreCountedAtTheTop) {
  const Markup m(report_html(sample_input()));
  EXPECT_NE(m.one("//section[@id='verdict']/div[@class='heed']").find("1 of 2 factors"),
            std::string::npos);
}

TEST(Report, NothingRatedNothingClaimed) {
  ReportInput in;
  in.results.title = "plate";
  in.results.cautions = standing_cautions();
  const Markup m(report_html(in));
  EXPECT_EQ(m.one("//div[@class='overall']/span"), "NOT RATED");
  EXPECT_EQ(m.count("//section[@id='signatures']"), 1u);
}

}  // namespace
}  // namespace felloe
