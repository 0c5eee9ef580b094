// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that every wrong case file gives one clear message for its one mistake, exit code 2 and no
// files.
#include "tests/cli/program.h"

namespace felloe::test {
namespace {

/// One mistake in the test wheel, and the words that its message must hold. A geometric mistake
/// has no line of the file.
struct Mistake {
  std::string name, from, to;
  std::string at;  ///< the message must point at this text of the changed file; empty: not tested
  std::string place;
  std::vector<std::string> words;
};

std::ostream &operator<<(std::ostream &out, const Mistake &m) { return out << m.name; }

const std::vector<Mistake> &mistakes() {
  static const std::vector<Mistake> all = {
      {"UnknownKey",
       "thickness_mm = 2.5",
       "thicknes_mm = 2.5",
       "thicknes_mm = 2.5",
       "[rim] thicknes_mm",
       {"unknown key", "did you mean 'thickness_mm'?"}},
      {"KeyOfAnotherSection",
       "leg_mm = 3.8",
       "leg_mm = 3.8\nhalf_angle_deg = 30",
       "half_angle_deg",
       "[weld] half_angle_deg",
       {"belongs to [radial_load]"}},
      {"UnknownSection",
       "[vent_holes]",
       "[vent_hole]",
       "vent_hole]",
       "vent_hole",
       {"did you mean 'vent_holes'?"}},
      {"WrongType",
       "width_code = 6",
       "width_code = \"6\"",
       "width_code",
       "[rim] width_code = \"6\"",
       {"without quotes", "3 to 16"}},
      {"FractionOfAHole",
       "count = 5",
       "count = 5.5",
       "count = 5.5",
       "[bolt_holes] count = 5.5",
       {"whole number", "2 to 20"}},
      {"NegativeThickness",
       "thickness_mm = 3.8",
       "thickness_mm = -3.8",
       "thickness_mm = -3.8",
       "[disc] thickness_mm = -3.8",
       {"too small", "0.5 to 40 mm"}},
      {"NotANumber",
       "pitch_circle_mm = 112",
       "pitch_circle_mm = nan",
       "pitch_circle_mm = nan",
       "[bolt_holes] pitch_circle_mm = nan",
       {"not a finite number", "20 to 500 mm"}},
      {"Infinite",
       "rated_load_kg = 560",
       "rated_load_kg = inf",
       "rated_load_kg",
       "[load] rated_load_kg = inf",
       {"not a finite number"}},
      {"MissingSection",
       "[weld]\nleg_mm = 3.8\n",
       "",
       "# An invented",
       "[weld]",
       {"missing", "'leg_mm'"}},
      {"MissingKey",
       "inset_mm = 40\n",
       "",
       "[rim]",
       "[rim] inset_mm",
       {"missing", "-150 to 150 mm"}},
      {"UnknownMaterial",
       "\"S420MC\"",
       "\"S420NC\"",
       "disc = \"S420NC\"",
       "[materials] disc = \"S420NC\"",
       {"did you mean 'S420MC'?", "felloe list materials"}},
      {"UnknownContour",
       "contour = \"J\"",
       "contour = \"Q7\"",
       "contour",
       "[rim] contour = \"Q7\"",
       {"unknown", "\"J\""}},
      {"UnknownRigTest",
       "bending J328 front ferrous",
       "bending J328 front ferous",
       "row = \"bending J328 front ferous",
       "[[rig_test]] no. 1 row",
       {"did you mean 'bending J328 front ferrous'?"}},
      {"TwoTestsOfOneName",
       "name = \"rolling\"",
       "name = \"cornering\" # again",
       "name = \"cornering\" # again",
       "[[rig_test]] no. 2 name",
       {"two tests are called 'cornering'"}},
      {"TestWithoutTyre",
       "static_radius_mm = 290\n",
       "",
       "[[rig_test]]",
       "[[rig_test]] no. 1",
       {"needs [tyre] static_radius_mm"}},
      {"SyntaxError", "inset_mm = 40", "inset_mm = = 40", "", "", {"not valid TOML"}},
      {"KeyTwice", "inset_mm = 40", "inset_mm = 40\ninset_mm = 41", "", "", {"not valid TOML"}},
      {"StationTwice",
       "thickness_mm = 3.8",
       "thickness = [ { s_mm = 0, thickness_mm = 4 }, { s_mm = 0, thickness_mm = 3 } ]",
       "",
       "",
       {"two stations at the same length"}},
      {"TorqueAndPreload",
       "torque_Nm = 110",
       "torque_Nm = 110\npreload_N = 40000",
       "preload_N",
       "[bolt_clamp] preload_N = 40000",
       {"keep one of the two"}},
      {"NoBendRadius",
       "z_mm = 28, bend_radius_mm = 14",
       "z_mm = 28",
       "{ r_mm = 100",
       "[[disc.meridian]] no. 2 bend_radius_mm",
       {"bend radius over 0"}},
      {"NotOnTheRim",
       "on_rim = true, z_mm = -22",
       "r_mm = 150, z_mm = -22",
       "r_mm = 150",
       "[[disc.meridian]] no. 4 r_mm = 150",
       {"on_rim = true"}},
      {"SectionOfAPlainDisc",
       "[press_fit]",
       "[support]\nouter_edge = \"held\"\n[press_fit]",
       "[support]",
       "[support]",
       {"no such section", "remove"}},
      // shape: found by the layout, so that the file's name stands in front without a line
      {"HoleOutsideItsBand",
       "pitch_circle_mm = 272",
       "pitch_circle_mm = 215",
       "",
       "",
       {"vent holes", "mm"}},
      {"OverlappingHoles", "count = 10", "count = 40", "", "", {"vent holes", "ligament"}},
      {"BendRadiusTooLarge",
       "bend_radius_mm = 14",
       "bend_radius_mm = 80",
       "",
       "",
       {"bends at points", "smaller"}},
      {"WeldLegTooSmall", "leg_mm = 3.8", "leg_mm = 1", "", "", {"weld", "leg of 1.0 mm"}},
      {"DiscMissesTheRim",
       "on_rim = true, z_mm = -22",
       "on_rim = true, z_mm = -90",
       "",
       "",
       {"disc flange", "well bottom"}},
  };
  return all;
}

/// ":line:column: " of the first occurrence, counted from 1.
std::string position(const std::string &text, const std::string &at) {
  const auto found = text.find(at);
  EXPECT_NE(found, std::string::npos) << at;
  const std::string before = text.substr(0, found);
  const auto line_start = before.rfind('\n');
  const auto column = line_start == std::string::npos ? found + 1 : found - line_start;
  return ":" + std::to_string(lines(before) + 1) + ":" + std::to_string(column) + ": ";
}

class WrongCase : public ::testing::TestWithParam<Mistake> {};

TEST_P(WrongCase, GivesOneMessageAndNoFiles) {
  const Mistake &m = GetParam();
  const Folder folder;
  const std::string text = with(test_wheel(), m.from, m.to);
  folder.write("wheel.toml", text);
  const std::string place = "wheel.toml" + (m.at.empty() ? "" : position(text, m.at)) + m.place;
  for (const std::vector<std::string> &arguments :
       {std::vector<std::string>{"check", "wheel.toml"}, {"run", "wheel.toml", "-o", "out"}}) {
    const Outcome o = felloe_in(folder.path(), arguments);
    EXPECT_EQ(o.exit_code, 2);
    EXPECT_EQ(o.out, "");
    EXPECT_EQ(o.err.find("felloe: 1 problem in wheel.toml; nothing was computed:\nwheel.toml"), 0u)
        << o.err;
    EXPECT_EQ(lines(o.err), 2u) << o.err;
    EXPECT_NE(o.err.find(place), std::string::npos) << place << "\n" << o.err;
    for (const auto &word : m.words) EXPECT_NE(o.err.find(word), std::string::npos) << o.err;
    EXPECT_EQ(folder.listing(), std::set<std::string>{"wheel.toml"});
  }
}

INSTANTIATE_TEST_SUITE_P(Mistakes, WrongCase, ::testing::ValuesIn(mistakes()),
                         [](const auto &info) { return info.param.name; });

TEST(WrongCaseFile, AllMistakesAreReportedTogetherInTheOrderOfTheFile) {
  const Folder folder;
  std::string text = with(test_wheel(), "width_code = 6", "width_code = 60");
  text = with(text, "leg_mm = 3.8", "leg = 3.8");
  text = with(text, "\"S355MC\"", "\"S355MD\"");
  folder.write("wheel.toml", text);
  const Outcome o = felloe_in(folder.path(), {"check", "wheel.toml"});
  EXPECT_EQ(o.exit_code, 2);
  const auto rim = o.err.find("[rim] width_code = 60: too large");
  const auto weld = o.err.find("[weld] leg = 3.8: unknown key; did you mean 'leg_mm'?");
  const auto material = o.err.find("[materials] rim = \"S355MD\"");
  ASSERT_NE(material, std::string::npos) << o.err;
  EXPECT_LT(rim, weld);
  EXPECT_LT(weld, material);
  EXPECT_EQ(lines(o.err), 4u) << o.err;
}

TEST(WrongCaseFile, EmptyMissingAndUnreadableFilesAreNamed) {
  const Folder folder;
  folder.write("empty.toml", "");
  folder.write("deep/case.toml", test_wheel());
  folder.write("sweep.toml", "case = \"wheel.toml\"\n[[vary]]\nkey = \"weld.leg_mm\"\n");
  folder.write("binary.toml", std::string("\x7f\x45\xff\xfe\0", 5));
  const auto before = folder.listing();
  const std::pair<std::string, std::string> wrong[] = {
      {"empty.toml", "the case file is empty"},
      {"binary.toml", "not valid TOML"},
      {"absent.toml", "absent.toml: can't be read: there is no such file"},
      {"deep", "this is a folder; give the file itself, for example deep/case.toml"},
      {"empty.toml/wheel.toml", "can't be read: part of the path is a file"},
      {"", "a file's name is empty"},
      {"sweep.toml", "sweep.toml:2:1: [[vary]]: this is a sweep file"},
  };
  for (const auto &[name, words] : wrong) {
    const Outcome o = felloe_in(folder.path(), {"check", name});
    EXPECT_EQ(o.exit_code, 2) << name;
    EXPECT_NE(o.err.find(words), std::string::npos) << o.err;
    EXPECT_EQ(folder.listing(), before) << name;
  }
}

}  // namespace
}  // namespace felloe::test
