// SPDX-License-Identifier: GPL-3.0-or-later
// The page of a sweep: well-formed, every design in its table, foreign names as text, bounded size.
#include <gtest/gtest.h>

#include <limits>

#include "cli/sweep/sweep_page.h"
#include "mesher/error.h"
#include "tests/support/markup.h"
#include "tests/sweep/cheap_model.h"

namespace felloe {
namespace {

using test::Markup;

StoredDesign design(long id, double mass, double life, double tilt) {
  StoredDesign d;
  d.id = id;
  d.values = {2 + 0.01 * double(id)};
  d.state = JobState::done;
  d.input_hash = "hash-" + std::to_string(id);
  d.version = "0.1";
  d.figures.mass_kg = mass;
  d.figures.tilt_Nm_per_deg = tilt;
  TestFigures t;
  t.test = "cornering";
  t.feature = "vent edge outer";
  t.stress_MPa = 100;
  t.allowed_stress_MPa = 120;
  t.required_cycles = 1e5;
  t.life_design = life * 1e5;
  t.verdict = life >= 1 ? Verdict::pass : Verdict::fail;
  d.figures.tests = {t};
  d.figures.verdict = t.verdict;
  return d;
}

Designs four() {
  Designs all = {design(1, 8, 2, 50), design(2, 7, 0.5, 40),
                 design(3, 9, std::numeric_limits<double>::infinity(), 45), design(4, 0, 0, 0)};
  all[3].state = JobState::failed;
  all[3].figures = {};
  all[3].reason = "holes 2.5 mm apart";
  return all;
}

SweepPageSource source(const std::string &folder = "out") {
  return {folder, "0.1 (abc)", [](long id) { return test::disc_text(2 + 0.01 * double(id)); }};
}

std::string data_of(const Markup &page) { return page.one("//script[@id='sweep-data']"); }

std::size_t count(const std::string &text, const std::string &part) {
  std::size_t n = 0;
  for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++n;
  return n;
}

TEST(SweepPage, HoldsEveryDesignWithItsFigures) {
  const Markup page(sweep_page(test::disc_head(), four(), source()));
  EXPECT_EQ(page.one("//h1"), "discs");
  const std::string row = "//table[@id='designs']/tbody/tr";
  EXPECT_EQ(page.count(row), 4u);
  EXPECT_EQ(page.all(row + "[1]/*"),
            (std::vector<std::string>{"1", "2.01", "pass", "8.000", "2", "1.200", "50",
                                      "cornering: vent edge outer"}));
  EXPECT_EQ(page.one(row + "[3]/*[5]"), "no crack");
  EXPECT_EQ(page.one(row + "[4]/*[3]"), "not computed");
  EXPECT_EQ(page.one(row + "[4]/*[8]"), "holes 2.5 mm apart");
  EXPECT_EQ(page.all("//table[@id='failures']/tbody/tr/*"),
            (std::vector<std::string>{"holes 2.5 mm apart", "1", "4"}));
  EXPECT_EQ(page.all("//table[@id='varied']/tbody/tr/*[3]"),
            (std::vector<std::string>{"2.01 to 2.04"}));
  EXPECT_EQ(page.all("//table[@id='lightest']/tbody/tr/*[1]"),
            (std::vector<std::string>{"1", "3"}));
}

TEST(SweepPage, SaysWhatMadeItAndWhatItDoesNotReplace) {
  SweepHead head = test::disc_head();
  head.sweep_text = "abc";  // FIPS 180-2
  const Markup page(sweep_page(head, four(), source()));
  EXPECT_EQ(page.one("//dd/code"),
            "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  EXPECT_EQ(page.count("//dd[.='felloe 0.1 (abc)']"), 1u);
  const std::vector<std::string> cautions = page.all("//*[@class='heed']//li");
  EXPECT_EQ(cautions, sweep_cautions(four()));
  EXPECT_NE(page.one("//pre/code").find("felloe sweep out --design N"), std::string::npos);
}

TEST(SweepPage, PointsOfBothPlotsLeadToDesigns) {
  const Markup page(sweep_page(test::disc_head(), four(), source()));
  EXPECT_EQ(page.count("//svg:svg"), 2u);
  const std::vector<std::string> targets = page.all("//svg:a/@href");
  EXPECT_EQ(targets.size(), 6u);  // three computed designs in two plots
  for (const std::string &t : targets)
    EXPECT_EQ(page.count("//table[@id='designs']//a[@id='" + t.substr(1) + "']"), 1u) << t;
}

TEST(SweepPage, CarriesWhatTheScriptShowsOfADesign) {
  const std::string data = data_of(Markup(sweep_page(test::disc_head(), four(), source())));
  EXPECT_EQ(count(data, "\"id\":"), 4u);
  EXPECT_EQ(count(data, "\"feature\":\"vent edge outer\""), 3u);  // none of the failed one
  EXPECT_EQ(count(data, "\"life\":200000.0,"), 1u);
  EXPECT_EQ(count(data, "\"noCrack\":true"), 1u);
  EXPECT_EQ(count(data, "\"hash\":\"hash-1\""), 1u);
  EXPECT_EQ(count(data, "\"felloe sweep out --design 1 -o design-1.toml \\u0026\\u0026 felloe run"),
            1u);
  EXPECT_EQ(count(data, "\"drawing\":\"PD94bWwg"), 4u);  // <?xml in base64
}

TEST(SweepPage, ForeignTextStaysText) {
  const std::string bad =
      "</script><script>alert(1)</script>\"'&\xE2\x80\xAE"
      "abc";
  SweepHead head = test::disc_head();
  head.title = head.case_file = head.sweep_file = bad;
  head.keys = {bad};
  head.units = {bad};
  Designs designs = four();
  for (StoredDesign &d : designs) {
    d.values = {bad};
    for (TestFigures &t : d.figures.tests) t.test = t.feature = bad;
    d.reason = d.input_hash = bad;
  }
  const std::string text = sweep_page(head, designs, source(bad));
  const Markup page(text);
  EXPECT_EQ(page.count("//script"), 2u);  // the data and the page's own
  EXPECT_EQ(page.count("//*[@onclick or @style]"), 0u);
  EXPECT_EQ(text.find("alert(1)</script>"), std::string::npos);
  EXPECT_EQ(text.find("\xE2\x80\xAE"), std::string::npos);
  EXPECT_NE(page.one("//h1").find("<script>alert(1)</script>\"'&[U+202E]abc"), std::string::npos);
  EXPECT_EQ(data_of(page).find_first_of("<>&"), std::string::npos);
}

TEST(SweepPage, QuotesFoldersForAShell) {
  EXPECT_EQ(command_of_design("my 'own' designs", "7")
                .rfind("felloe sweep 'my '\\''own'\\'' designs' --design 7 ", 0),
            0u);
  EXPECT_EQ(command_of_design("a/b-1.2", "7").rfind("felloe sweep a/b-1.2 ", 0), 0u);
}

TEST(SweepPage, OfAThousandDesignsStaysSmall) {
  Designs many;
  for (int i = 1; i <= 1000; ++i) many.push_back(design(i, 8 + 1e-3 * i, 0.5 + 2e-3 * i, 50));
  const std::string text = sweep_page(test::disc_head(), many, source());
  EXPECT_LT(text.size(), 8'000'000u);
  const std::string data = data_of(Markup(text));
  EXPECT_GT(count(data, "\"drawing\":"), 50u);
  // the lightest that passes
  const auto begin = data.find("\"id\":250,"), end = data.find("\"id\":251,");
  EXPECT_EQ(count(data.substr(begin, end - begin), "\"drawing\":"), 1u);
}

TEST(SweepPage, OfNothingIsStillAPage) {
  const Markup page(sweep_page(test::disc_head(), {}, source()));
  EXPECT_EQ(page.count("//table[@id='designs']/tbody/tr"), 0u);
  // what cannot be laid out has no drawing
  SweepPageSource broken = source();
  broken.case_text = [](long) -> std::string { return "nonsense = 1"; };
  EXPECT_EQ(count(data_of(Markup(sweep_page(test::disc_head(), four(), broken))), "\"drawing\":"),
            0u);
}

}  // namespace
}  // namespace felloe
