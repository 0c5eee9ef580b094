// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that lives on the rig become a curve that a case accepts, and that wrong tables are
// refused with line, column and remedy.
#include "tests/cli/program.h"

namespace felloe::test {
namespace {

const std::string lives = R"(# invented
amplitude_MPa,cycles,run_out
400,62000,no
400, 85000 ,no
350,140000,no
350,210000,no
300,520000,no
300,390000,no

260,1.5e6,no
260,5e6,yes
)";

TEST(Fit, WritesACurveThatACaseAccepts) {
  const Folder folder;
  folder.write("lives.csv", lives);
  const Outcome o =
      felloe_in(folder.path(), {"fit", "lives.csv", "-o", "out", "--use-for", "vent edge"});
  EXPECT_EQ(o.exit_code, 0) << o.err;
  EXPECT_NE(o.out.find("7 failures, 1 run-outs"), std::string::npos) << o.out;
  const std::string plot = contents(folder / "out/lives.svg");
  EXPECT_NE(plot.find("<circle class=\"run-out\""), std::string::npos);
  const std::string curve = contents(folder / "out/sn_curve.toml");
  EXPECT_NE(curve.find("use_for = \"vent edge\""), std::string::npos) << curve;
  folder.write("wheel.toml", test_wheel() + "\n" + curve);
  const Outcome check = felloe_in(folder.path(), {"check", "wheel.toml", "-o", "."});
  EXPECT_EQ(check.exit_code, 0) << check.err;
  // twice for one place is one too many
  folder.write("wheel.toml", test_wheel() + "\n" + curve + curve);
  const Outcome twice = felloe_in(folder.path(), {"check", "wheel.toml", "-o", "."});
  EXPECT_EQ(twice.exit_code, 2);
  EXPECT_NE(twice.err.find("rates the same places"), std::string::npos) << twice.err;
}

TEST(Fit, LoadsThatAreNoStressesGiveNoCurve) {
  const Folder folder;
  std::string moments = lives;
  moments.replace(moments.find("amplitude_MPa"), 13, "moment_Nm");
  folder.write("lives.csv", moments);
  EXPECT_EQ(felloe_in(folder.path(), {"fit", "lives.csv", "-o", "out"}).exit_code, 0);
  EXPECT_FALSE(fs::exists(folder / "out/sn_curve.toml"));
  EXPECT_TRUE(fs::exists(folder / "out/results.json"));
}

TEST(Fit, EvaluatesStaircases) {
  const Folder folder;
  folder.write("stairs.csv",
               "amplitude_MPa,run_out\n300,yes\n320,no\n300,no\n280,yes\n300,yes\n320,no\n");
  const Outcome o = felloe_in(folder.path(), {"fit", "stairs.csv", "--staircase"});
  EXPECT_EQ(o.exit_code, 0) << o.err;
  // failures at 300 (1) and 320 (2): 300 + 20 (2/3 - 1/2)
  EXPECT_NE(o.out.find("mean 303.33 MPa"), std::string::npos) << o.out;
}

TEST(Fit, WrongTablesAreRefusedWithPlaceAndRemedy) {
  const struct {
    std::string table, words;
  } all[] = {{"amplitude_MPa,cycles,run_out\n300,many,no\n",
              "lives.csv:2:5: cycles = many: not a number; accepted: 1 to 1e+12"},
             {"amplitude_MPa,cycles,run_out\n300,1e5,maybe\n",
              "lives.csv:2:9: run_out = maybe: unknown word; accepted: yes or no"},
             {"amplitude_MPa,cycles\n300,1e5\n300\n", "lives.csv:3:1: 1 values, but 2 columns"},
             {"amplitude_MPa,cycles\n-300,1e5\n", "lives.csv:2:1: amplitude_MPa = -300: too small"},
             {"amplitude_MPa,cycels\n300,1e5\n",
              "lives.csv:1:15: column 'cycels': unknown; did you mean 'cycles'?"},
             {"amplitude_MPa;cycles\n300;1e5\n", "separate them by commas"},
             {"amplitude_MPa,cycles\n", "there are no rows"},
             {"", "holds no table"},
             {"cycles\n1e5\n", "no column holds the load"},
             {"amplitude_MPa,range_MPa,cycles\n1,2,3\n", "keep one of the two"},
             {"amplitude_MPa,cycles\n300,1e5\n300,2e5\n", "too few for 3 unknowns"},
             {"amplitude_MPa,cycles\n300,1e5\n300,2e5\n300,3e5\n300,3e5\n", "all loads are equal"}};
  const Folder folder;
  for (const auto &wrong : all) {
    folder.write("lives.csv", wrong.table);
    const Outcome o = felloe_in(folder.path(), {"fit", "lives.csv", "-o", "out"});
    EXPECT_EQ(o.exit_code, 2) << wrong.words;
    EXPECT_NE(o.err.find(wrong.words), std::string::npos) << o.err;
    EXPECT_NE(o.err.find("lives.csv"), std::string::npos) << o.err;
    EXPECT_FALSE(fs::exists(folder / "out"));
  }
}

TEST(Fit, WrongOptionsAreRefused) {
  const Folder folder;
  folder.write("lives.csv", lives);
  const struct {
    std::vector<std::string> arguments;
    std::string words;
  } all[] = {{{"fit"}, "no table of lives given"},
             {{"fit", "lives.csv", "--survival", "120"}, "accepted: 50 to 99.99"},
             {{"fit", "lives.csv", "--use-for", "vent edges"}, "did you mean 'vent edge'?"},
             {{"fit", "lives.csv", "--weibul"}, "did you mean '--weibull'?"},
             {{"fit", "missing.csv"}, "there is no such file"}};
  for (const auto &wrong : all) {
    const Outcome o = felloe_in(folder.path(), wrong.arguments);
    EXPECT_EQ(o.exit_code, 2) << wrong.words;
    EXPECT_NE(o.err.find(wrong.words), std::string::npos) << o.err;
  }
}

}  // namespace
}  // namespace felloe::test
