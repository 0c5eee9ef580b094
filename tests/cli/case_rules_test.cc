// SPDX-License-Identifier: GPL-3.0-or-later
// Proves the rules that join several keys of a case file, message by message, and that one mistake
// gives one finding.
#include "cli/case_file.h"
#include "mesher/error.h"
#include "tests/cli/program.h"

namespace felloe::test {
namespace {

std::string message(const std::string &text) {
  try {
    read_case_text(text, "w.toml");
  } catch (const Error &e) {
    return e.what();
  }
  return "accepted";
}

/// Changes the test wheel and expects exactly one finding that holds the words.
void expect_one(const std::string &from, const std::string &to, const std::string &words) {
  const std::string m = message(with(test_wheel(), from, to));
  EXPECT_EQ(m.find("1 problem in w.toml"), 0u) << m;
  EXPECT_NE(m.find(words), std::string::npos) << m;
}

TEST(CaseRules, TheTestWheelIsAccepted) { EXPECT_EQ(message(test_wheel()), "accepted"); }

TEST(CaseRules, SizesThatContradictEachOther) {
  expect_one("hub_face_diameter_mm = 142", "hub_face_diameter_mm = 50",
             "must be larger than the bore, 57 mm");
  expect_one("seat_diameter_mm = 16.5", "seat_diameter_mm = 12", "must be larger than the hole");
  expect_one("seat_diameter_mm = 16.5\n", "", "a cone seat needs seat_diameter_mm");
  expect_one("static_radius_mm = 290", "static_radius_mm = 312",
             "[tyre] static_radius_mm = 312: larger than dynamic_radius_mm, 308 mm");
  expect_one("thread_pitch_mm = 1.5", "thread_pitch_mm = 3.9", "over 0.3 thread diameters");
}

TEST(CaseRules, KeysThatExcludeEachOther) {
  expect_one("thickness_mm = 3.8\n",
             "thickness_mm = 3.8\nthickness = [ { s_mm = 0, thickness_mm = 4 } ]\n",
             "keep one of the two");
  expect_one("name = \"rolling\"", "cycles = 1e5\ndistance_km = 900", "keep one of the two");
  expect_one("r_mm = 82,", "r_mm = 82, on_rim = true,", "remove one of the two");
  expect_one("on_rim = true, z_mm = -22", "on_rim = true, z_mm = -22, bend_radius_mm = 3",
             "takes no bend");
}

TEST(CaseRules, KeysThatNeedEachOther) {
  expect_one("thickness_mm = 3.8\n", "", "no sheet thickness");
  expect_one("torque_Nm = 110\n", "", "neither torque_Nm nor preload_N");
  expect_one("thread_pitch_mm = 1.5\n", "", "[bolt_clamp] thread_pitch_mm: the key is missing");
  expect_one("r_mm = 82, ", "", "the corner has no radius");
  expect_one("rim = \"S355MC\"\n", "", "[materials] rim: the material is missing");
  expect_one("disc = \"S420MC\"",
             "disc = { poissons_ratio = 0.3, density_kg_m3 = 7850, "
             "yield_strength_MPa = 300, tensile_strength_MPa = 400 }",
             "[materials.disc] youngs_modulus_MPa: the key is missing");
  expect_one("row = \"bending J328 front ferrous\"\n", "load_factor = 1.6\ncycles = 30000\n",
             "[[rig_test]] no. 1 friction: the key is missing");
}

TEST(CaseRules, HubContactNeedsClampedBolts) {
  const std::string clamp =
      "[bolt_clamp]\ntorque_Nm = 110\nthread_diameter_mm = 12\nthread_pitch_mm = 1.5\n";
  EXPECT_EQ(message(with(test_wheel(), clamp, clamp + "\n[hub]\ncontact = true\n")), "accepted");
  expect_one(clamp, "[hub]\ncontact = true\n", "[hub] contact = true: contact needs bolts");
  EXPECT_EQ(message(with(test_wheel(), clamp, "[hub]\ncontact = false\n")), "accepted");
  EXPECT_EQ(message(with(test_wheel(), clamp,
                         clamp + "\n[hub]\ncontact = true\nfriction_coefficient = 0.2\n")),
            "accepted");
  expect_one(clamp, clamp + "\n[hub]\nfriction_coefficient = 0.2\n",
             "[hub] friction_coefficient = 0.2: a bonded face does not slip");
  expect_one(clamp, clamp + "\n[hub]\ncontact = true\nfriction_coefficient = 1.5\n", "0.05");
}

TEST(CaseRules, ContactOfAPressFitNeedsOne) {
  const std::string fit = "interference_mm = 0.15";
  ASSERT_NE(test_wheel().find(fit), std::string::npos);
  EXPECT_EQ(message(with(test_wheel(), fit, fit + "\ncontact = true")), "accepted");
  expect_one(fit, "interference_mm = 0\ncontact = true", "[press_fit] contact = true: there is no");
}

TEST(CaseRules, APlainDiscHasNoRim) {
  const std::string m = message(with(test_wheel(), "welded disc", "disc only"));
  for (const std::string section :
       {"[rim]", "[weld]", "[load]", "[tyre]", "[press_fit]", "[rig_test]", "[materials] rim"})
    EXPECT_NE(m.find(section), std::string::npos) << section << "\n" << m;
  EXPECT_NE(m.find("a plain disc has no rim; give r_mm instead"), std::string::npos) << m;
}

TEST(CaseRules, APlainDiscNeedsALoadThatActs) {
  const std::string disc =
      "[wheel]\nconstruction = \"disc only\"\n[disc]\nbore_diameter_mm = 60\nthickness_mm = 4\n"
      "meridian = [ { r_mm = 180, z_mm = 0 } ]\n[materials]\ndisc = \"S420MC\"\n[support]\n"
      "outer_edge = \"free\"\n[plate_load]\n";
  EXPECT_NE(message(disc).find("no load is given"), std::string::npos);
  EXPECT_NE(message(disc + "hub_moment_Nm = 5\n").find("the hub is held and can't be loaded"),
            std::string::npos);
  EXPECT_EQ(message(disc + "pressure_MPa = 0.1\n"), "accepted");
}

TEST(CaseRules, AFaultyValueIsNotJudgedTwice) {
  expect_one("bend_radius_mm = 14", "bend_radius_mm = \"14\"", "without quotes");
  expect_one("bend_radius_mm = 14", "bend_radius = 14", "did you mean 'bend_radius_mm'?");
  expect_one("thickness_mm = 3.8\n", "thickness = 3.8\n", "write thickness_mm in [disc]");
  expect_one("torque_Nm = 110", "torque = 110", "did you mean 'torque_Nm'?");
  expect_one("row = \"bending J328 front ferrous\"\nname = \"cornering\"", "row = \"x\"",
             "[[rig_test]] no. 1 row = \"x\": unknown");
  expect_one("[load]", "[laod]", "did you mean 'load'?");
  expect_one("construction = \"welded disc\"", "construction = \"welded\"",
             "did you mean 'welded disc'?");
}

}  // namespace
}  // namespace felloe::test
