// SPDX-License-Identifier: GPL-3.0-or-later
// A sweep file is read strictly, and its designs are complete cases with the values it says.
#include "cli/sweep/sweep_file.h"

#include <gtest/gtest.h>

#include <cmath>

#include "cli/case_file.h"
#include "mesher/error.h"

namespace felloe {
namespace {

const std::string path = FELLOE_DEMO_FOLDER "/sweep.toml";  // the base case lies beside it

const std::string begin = "case = \"case.toml\"\n";
const std::string grid = "[plan]\nkind = \"full grid\"\n";
const std::string vents =
    "[[vary]]\nkey = \"vent_holes.diameter_mm\"\nvalues = [24.0, 28.0, 32.0]\n";

SweepPlan plan(const std::string &text) { return plan_of(read_sweep_text(text, path), path); }

std::string message(const std::string &text) {
  try {
    plan(text);
  } catch (const Error &e) {
    return e.what();
  }
  return "no error";
}

Case design(const SweepPlan &p, std::size_t i) {
  return read_case_text(p.designs.at(i).case_text, "design");
}

#define EXPECT_SAYS(text, part) \
  EXPECT_NE(message(text).find(part), std::string::npos) << message(text)

TEST(SweepFile, ShippedSweepIsFine) {
  const SweepPlan p = plan_of(read_sweep(path), path);
  EXPECT_EQ(p.designs.size(), 45u);  // 5 thicknesses x 3 vents x 3 torques
  for (const PlannedDesign &d : p.designs) EXPECT_EQ(d.problem, "");
}

TEST(SweepFile, NormalDistributionHasItsMeanAndDeviation) {
  const SweepPlan p = plan_of(read_sweep(FELLOE_DEMO_FOLDER "/scatter.toml"), path);
  ASSERT_EQ(p.designs.size(), 400u);
  double mean = 0, square = 0;
  for (const PlannedDesign &d : p.designs) {
    EXPECT_EQ(d.problem, "");
    const double torque = std::get<double>(d.values[1]);
    mean += torque / 400, square += (torque - 110) * (torque - 110) / 400;
  }
  // three standard errors of 400 draws: 3 * 8 / 20, and 3 * 8 / sqrt(800)
  EXPECT_NEAR(mean, 110, 1.2);
  EXPECT_NEAR(std::sqrt(square), 8, 0.85);
}

TEST(SweepFile, FullGridHasEveryCombinationOnceLastKeyFastest) {
  const SweepPlan p =
      plan(begin + grid + vents + "[[vary]]\nkey = \"weld.leg_mm\"\nfrom = 3\nto = 4\nsteps = 5\n");
  ASSERT_EQ(p.designs.size(), 15u);
  EXPECT_EQ(p.designs[0].values, (std::vector<Value>{24.0, 3.0}));
  EXPECT_EQ(p.designs[1].values, (std::vector<Value>{24.0, 3.25}));
  EXPECT_EQ(p.designs[14].values, (std::vector<Value>{32.0, 4.0}));
  EXPECT_EQ(design(p, 14).wheel.vents.diameter, 32);
  EXPECT_EQ(design(p, 14).wheel.weld.leg, 4);
}

TEST(SweepFile, WholeNumbersStayWhole) {
  const SweepPlan p =
      plan(begin + grid + "[[vary]]\nkey = \"vent_holes.count\"\nfrom = 8\nto = 12\n");
  ASSERT_EQ(p.designs.size(), 5u);
  EXPECT_EQ(design(p, 3).wheel.vents.count, 11);
  const SweepPlan sampled = plan(begin +
                                 "[plan]\nkind = \"latin hypercube\"\ndesigns = 50\n[[vary]]\n"
                                 "key = \"vent_holes.count\"\nfrom = 8\nto = 12\n");
  std::vector<int> counts(20);
  for (const auto &d : sampled.designs) ++counts[std::size_t(std::get<int>(d.values[0]))];
  for (int n = 8; n <= 12; ++n) EXPECT_EQ(counts[std::size_t(n)], 10) << n;  // 50 strata, 5 values
}

TEST(SweepFile, AddChangesEveryStation) {
  const SweepPlan p = plan(begin + grid +
                           "[[vary]]\nkey = \"disc.thickness[*].thickness_mm\"\napply = \"add\"\n"
                           "values = [-0.1, 0.2]\n");
  const Case base = read_sweep(path).base, thicker = design(p, 1);
  ASSERT_EQ(thicker.wheel.disc.thickness.size(), base.wheel.disc.thickness.size());
  for (std::size_t i = 0; i < base.wheel.disc.thickness.size(); ++i)
    EXPECT_NEAR(thicker.wheel.disc.thickness[i].thickness,
                base.wheel.disc.thickness[i].thickness + 0.2, 1e-12);
  EXPECT_EQ(design(p, 0).wheel.disc.thickness[0].thickness, 3.7);  // 3.8 - 0.1 to the digit
}

TEST(SweepFile, RowsOfListsCountFromOne) {
  const SweepPlan p =
      plan(begin + grid + "[[vary]]\nkey = \"disc.meridian[2].bend_radius_mm\"\nvalues = [15]\n");
  EXPECT_EQ(design(p, 0).wheel.disc.meridian[1].bend_radius, 15);
  EXPECT_EQ(design(p, 0).wheel.disc.meridian[0].bend_radius, 12);
}

TEST(SweepFile, MaterialsVaryByTheirRow) {
  const SweepPlan p = plan(
      begin + grid + "[[vary]]\nkey = \"materials.disc\"\nvalues = [\"S355MC\", \"S420MC\"]\n");
  EXPECT_EQ(design(p, 0).disc_material.yield_strength, 355);
  EXPECT_EQ(design(p, 1).disc_material.yield_strength, 420);
}

TEST(SweepFile, ListGivesItsDesigns) {
  const SweepPlan p = plan(begin +
                           "[plan]\nkind = \"list\"\nlist = [ [ 25, 100 ], [ 27.5, 120 ] ]\n"
                           "[[vary]]\nkey = \"vent_holes.diameter_mm\"\n[[vary]]\n"
                           "key = \"bolt_clamp.torque_Nm\"\n");
  ASSERT_EQ(p.designs.size(), 2u);
  EXPECT_EQ(design(p, 1).wheel.vents.diameter, 27.5);
  EXPECT_EQ(design(p, 1).clamp.torque_Nm, 120);
}

TEST(SweepFile, RequirementsLeaveDesignsOut) {
  const SweepPlan p = plan(begin + grid + vents +
                           "[[vary]]\nkey = \"weld.leg_mm\"\nvalues = [3.0, 4.0]\n[[require]]\n"
                           "sum = { \"vent_holes.diameter_mm\" = 1.0, weld.leg_mm = -2.0 }\n"
                           "at_least = 20\nat_most = 22\n");
  // 24 - 6 = 18, 24 - 8 = 16, 28 - 6 = 22, 28 - 8 = 20, 32 - 6 = 26, 32 - 8 = 24
  ASSERT_EQ(p.designs.size(), 2u);
  EXPECT_EQ(p.left_out, 4);
  EXPECT_EQ(p.designs[0].values, (std::vector<Value>{28.0, 3.0}));
  EXPECT_SAYS(begin + grid + vents +
                  "[[require]]\nsum = { \"vent_holes.diameter_mm\" = 1.0 }\nat_least = 90\n",
              "[[require]] leaves none of the 3 designs");
}

// A mistake in one key must not make another one look wrong.
TEST(SweepFile, OneMistakeIsOneMessage) {
  const std::string sheet = "[[vary]]\nkey = \"disc.thickness[*].thickness_mm\"\n";
  for (const auto &[keys, part] : std::vector<std::pair<std::string, std::string>>{
           {"aply = \"add\"\nfrom = -0.2\nto = 0.2\nsteps = 2\n", "did you mean 'apply'?"},
           {"apply = \"ad\"\nfrom = -0.2\nto = 0.2\nsteps = 2\n", "did you mean 'add'?"},
           {"apply = \"add\"\nfrom = -0.2\nto = 0.2\nsteps = 0\n", "steps = 0: too small"},
           {"apply = \"add\"\nfrom = -0.2\nto = 0.2\nstep = 2\n", "did you mean 'steps'?"}}) {
    EXPECT_SAYS(begin + grid + sheet + keys, "1 problem in ");
    EXPECT_SAYS(begin + grid + sheet + keys, part);
  }
  EXPECT_SAYS("title = \"x\"\n[wheel]\nconstruction = \"disc only\"\n", "this is a case file");
}

TEST(SweepFile, DesignThatIsNoValidCaseKeepsItsReason) {
  const SweepPlan p =
      plan(begin + grid + "[[vary]]\nkey = \"tyre.static_radius_mm\"\nvalues = [290, 310]\n");
  EXPECT_EQ(p.designs[0].problem, "");
  EXPECT_NE(p.designs[1].problem.find("larger than dynamic_radius_mm, 308.5 mm"), std::string::npos)
      << p.designs[1].problem;
}

TEST(SweepFile, EveryFaultIsReportedWithItsPlace) {
  const std::string text = begin + "titel = \"x\"\n" + grid +
                           "designs = 5\n[[vary]]\nkey = \"vent_holes.diametr_mm\"\n"
                           "values = [24]\n[[vary]]\nkey = \"weld.leg_mm\"\nvalues = [3, 99]\n";
  const std::string m = message(text);
  for (const char *part :
       {"4 problems in ", "sweep.toml:2:1: titel = \"x\": unknown key; did you mean 'title'?",
        ":5:1: [plan] designs = 5: only for kind = \"latin hypercube\", \"sobol\" and \"random\"",
        ":7:1: [[vary]] no. 1 key = \"vent_holes.diametr_mm\": no key of a case; did you mean "
        "'vent_holes.diameter_mm'?",
        ":11:14: [[vary]] no. 2 values = 99: too large; accepted: 0.5 to 30 mm"})
    EXPECT_NE(m.find(part), std::string::npos) << "missing: " << part << "\nin: " << m;
}

TEST(SweepFile, KeysThatCannotVarySayWhy) {
  const auto with_key = [](const std::string &key) {
    return begin + grid + "[[vary]]\nkey = \"" + key + "\"\nvalues = [3]\n";
  };
  EXPECT_SAYS(with_key("thickness_mm"), "no key of a case; did you mean '");
  EXPECT_SAYS(with_key("disc.meridian.bend_radius_mm"),
              "'disc.meridian' is a list; write disc.meridian[1].bend_radius_mm");
  EXPECT_SAYS(with_key("disc.meridian[5].bend_radius_mm"), "accepted: 1 to 4, or *");
  EXPECT_SAYS(with_key("weld[1].leg_mm"), "[weld] stands once; leave out the row number");
  EXPECT_SAYS(with_key("plate_load.pressure_MPa"),
              "construction = \"welded disc\", has no such key");
  EXPECT_SAYS(with_key("wheel.construction"), "can't be varied");
  EXPECT_SAYS(
      begin + grid + "[[vary]]\nkey = \"disc.thickness_mm\"\napply = \"add\"\nvalues = [0.1]\n",
      "use disc.thickness[*].thickness_mm");
}

TEST(SweepFile, MissingAndContradictingEntriesSayWhatToWrite) {
  EXPECT_SAYS("", "the sweep file is empty");
  EXPECT_SAYS(grid + vents, "case: the key is missing");
  EXPECT_SAYS("case = \"nowhere.toml\"\n" + grid + vents, "there is no file");
  EXPECT_SAYS(begin + vents, "[plan]: the section is missing");
  EXPECT_SAYS(begin + grid, "[[vary]]: the section is missing");
  EXPECT_SAYS(begin + grid + vents + vents, "varies already");
  EXPECT_SAYS(begin + "[plan]\nkind = \"grid\"\n" + vents, "accepted: \"full grid\", \"list\"");
  EXPECT_SAYS(begin + "[plan]\nkind = \"sobol\"\n" + vents, "designs: the key is missing");
  EXPECT_SAYS(begin + grid + "[[vary]]\nkey = \"weld.leg_mm\"\nfrom = 3\nto = 4\n",
              "a full grid needs steps");
  EXPECT_SAYS(begin + grid + "[[vary]]\nkey = \"weld.leg_mm\"\nfrom = 4\nto = 3\nsteps = 2\n",
              "must not be below from, 4");
  EXPECT_SAYS(begin + grid + "[[vary]]\nkey = \"weld.leg_mm\"\nfrom = 3\nto = 4\nsteps = 2000000\n",
              "too large; accepted: a whole number, 1 to 100000");
  EXPECT_SAYS(begin + grid + "depth = \"section first\"\n" + vents,
              "screen_utilisation: the key is missing");
  EXPECT_SAYS(begin + grid + vents + "[[require]]\nsum = { weld.leg_mm = 1.0 }\nat_most = 3\n",
              "does not vary; a sum takes keys of [[vary]]");
  EXPECT_SAYS(begin + grid + vents + "[[require]]\nsum = { vent_holes.diameter_mm = 1.0 }\n",
              "neither at_least nor at_most");
  EXPECT_SAYS(begin +
                  "[plan]\nkind = \"list\"\nlist = [ [ 1, 2 ] ]\n[[vary]]\n"
                  "key = \"weld.leg_mm\"\n",
              "has 2 values; write list = [ [ ... ], ... ]");
  EXPECT_SAYS(begin +
                  "[plan]\nkind = \"random\"\ndesigns = 9\n[[vary]]\nkey = \"weld.leg_mm\"\n"
                  "mean = 3.5\n",
              "deviation: the key is missing; a normal distribution needs mean and deviation");
  EXPECT_SAYS(begin + grid + "[[vary]]\nkey = \"weld.leg_mm\"\nmean = 3.5\ndeviation = 0.1\n",
              "a full grid takes no normal distribution ('weld.leg_mm')");
  EXPECT_SAYS(begin + "[plan\n", "not valid TOML");
}

}  // namespace
}  // namespace felloe
