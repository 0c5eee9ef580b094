// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that a case file's values reach their places in the Case, and that writing the resolved
// case and reading it again gives the same Case.
#include "cli/case_file.h"

#include "mesher/error.h"
#include "tests/cli/program.h"

namespace felloe::test {
namespace {

const char *plate = R"([wheel]
construction = "disc only"
[disc]
bore_diameter_mm = 60
thickness = [ { s_mm = 0, thickness_mm = 4 }, { s_mm = 50, thickness_mm = 3.25 } ]
meridian = [ { r_mm = 180, z_mm = 0 } ]
[materials.disc]
youngs_modulus_MPa = 210000
poissons_ratio = 0.3
density_kg_m3 = 7850
yield_strength_MPa = 400
tensile_strength_MPa = 500
[support]
outer_edge = "simply supported"
[plate_load]
pressure_MPa = 0.1
)";

TEST(CaseFile, ValuesReachTheirPlaces) {
  const Case c = read_case_text(test_wheel(), "wheel.toml");
  EXPECT_EQ(c.title, "test wheel 15 x 6 J");
  EXPECT_EQ(c.file, "wheel.toml");
  EXPECT_EQ(c.wheel.construction, Construction::welded_disc);
  EXPECT_EQ(c.wheel.rim.contour, "J");
  EXPECT_EQ(c.wheel.rim.diameter_code, 15);
  EXPECT_EQ(c.wheel.rim.width_code, 6);
  EXPECT_EQ(c.wheel.rim.thickness, 2.5);
  EXPECT_EQ(c.wheel.rim.inset, 40);
  EXPECT_EQ(c.wheel.disc.bore_diameter, 57);
  EXPECT_EQ(c.wheel.disc.hub_face_diameter, 142);
  ASSERT_EQ(c.wheel.disc.meridian.size(), 4u);
  EXPECT_EQ(c.wheel.disc.meridian[1].r, 100);
  EXPECT_EQ(c.wheel.disc.meridian[1].z, 28);
  EXPECT_EQ(c.wheel.disc.meridian[1].bend_radius, 14);
  EXPECT_TRUE(c.wheel.disc.meridian[3].on_rim);
  ASSERT_EQ(c.wheel.disc.thickness.size(), 1u);
  EXPECT_EQ(c.wheel.disc.thickness[0].thickness, 3.8);
  EXPECT_EQ(c.wheel.bolts.count, 5);
  EXPECT_EQ(c.wheel.bolts.seat_cone_angle, 60);
  EXPECT_EQ(c.wheel.bolts.seat_diameter, 16.5);
  EXPECT_EQ(c.wheel.vents.count, 10);
  EXPECT_EQ(c.wheel.vents.pitch_circle_diameter, 272);
  EXPECT_EQ(c.wheel.weld.leg, 3.8);
  EXPECT_EQ(c.disc_material.name, "S420MC");
  EXPECT_EQ(c.weld_material.name, "S355MC");
  EXPECT_EQ(c.rated_load_kg, 560);
  EXPECT_EQ(c.tyre.static_radius_mm, 290);
  EXPECT_EQ(c.tyre.inflation_kPa, 220);
  EXPECT_EQ(c.clamp.torque_Nm, 110);
  EXPECT_EQ(c.clamp.thread.pitch, 1.5);
  EXPECT_EQ(c.press_fit.interference_mm, 0.15);
  ASSERT_EQ(c.tests.size(), 2u);
  EXPECT_EQ(c.tests[0].name, "cornering");
  EXPECT_EQ(c.test_rows[1], "radial R124 steel disc");
}

TEST(CaseFile, WhatIsLeftOutTakesTheDefaultOfTheKeyList) {
  const Case c = read_case_text(test_wheel(), "wheel.toml");
  EXPECT_EQ(c.wheel.vents.phase, 0);
  EXPECT_EQ(c.radial.half_angle_deg, 40);
  EXPECT_EQ(c.radial.positions_per_turn, 72);
  EXPECT_EQ(c.rating.survival_percent, 90);
  EXPECT_EQ(c.rating.vent_edges, "sheared");
  EXPECT_EQ(c.mesh.density, 1);
}

TEST(CaseFile, TestRowsGiveWhatTheCaseDoesNotSay) {
  const Case c = read_case_text(with(test_wheel(), "name = \"rolling\"",
                                     "name = \"rolling\"\nload_factor = 2.5\ncycles = 5e5"),
                                "wheel.toml");
  const RigTest &row = rig_test("bending J328 front ferrous");
  EXPECT_EQ(c.tests[0].load_factor, row.load_factor);
  EXPECT_EQ(c.tests[0].cycles, row.cycles);
  EXPECT_EQ(c.tests[0].source, row.source);
  EXPECT_EQ(c.tests[0].confidence, row.confidence);
  // own cycles take the place of the row's distance; no row's source stands beside own numbers
  EXPECT_EQ(c.tests[1].load_factor, 2.5);
  EXPECT_EQ(c.tests[1].cycles, 5e5);
  EXPECT_EQ(c.tests[1].distance_km, 0);
  EXPECT_EQ(c.tests[1].confidence, "own value");
  EXPECT_EQ(c.tests[1].source.find("case file"), 0u);
}

TEST(CaseFile, OwnMaterialsComeFromARowOrFromValues) {
  const std::string own = with(test_wheel(), "disc = \"S420MC\"",
                               "disc = { row = \"S420MC\", tensile_strength_MPa = 510 }");
  const Case c = read_case_text(own, "wheel.toml");
  EXPECT_EQ(c.disc_material.tensile_strength, 510);
  EXPECT_EQ(c.disc_material.youngs_modulus, material("S420MC").youngs_modulus);
  EXPECT_EQ(c.disc_material.confidence, "own value");
  EXPECT_EQ(c.rim_material.confidence, material("S355MC").confidence);
  const Case p = read_case_text(plate, "plate.toml");
  EXPECT_EQ(p.disc_material.name, "own values");
  EXPECT_EQ(p.disc_material.density, 7850e-9);
  EXPECT_EQ(p.outer_edge, OuterEdge::simply_supported);
  EXPECT_EQ(p.plate.pressure_MPa, 0.1);
}

/// Everything that a Case holds, in one comparable text.
std::string all_values(const Case &c) {
  std::string text = resolved_case(c) + c.title;
  for (const Material *m : {&c.disc_material, &c.rim_material, &c.weld_material})
    text += "|" + m->name + "|" + m->summary + "|" + m->source + "|" + m->confidence + "|" +
            std::to_string(m->density * 1e9);
  for (const auto &t : c.tests) text += "|" + t.name + "|" + t.source + "|" + t.confidence;
  return text;
}

TEST(ResolvedCase, ReadsBackToTheSameCase) {
  const std::string own = with(test_wheel(), "disc = \"S420MC\"",
                               "disc = { row = \"S420MC\", yield_strength_MPa = 431.7 }");
  for (const std::string &text :
       {test_wheel(), own, std::string(plate),
        with(test_wheel(), "test wheel", "q\\\"uo\\\\te\\n\\u00e9"),
        with(test_wheel(), "thickness_mm = 2.5", "thickness_mm = 2.4499999999999997")}) {
    const Case first = read_case_text(text, "a.toml");
    const std::string resolved = resolved_case(first);
    const Case second = read_case_text(resolved, "a.toml");
    EXPECT_EQ(all_values(second), all_values(first)) << resolved;
    EXPECT_EQ(second.wheel.rim.thickness, first.wheel.rim.thickness);
    EXPECT_EQ(second.disc_material.density, first.disc_material.density);
    EXPECT_EQ(second.tests.size(), first.tests.size());
  }
}

TEST(ResolvedCase, SpellsOutEveryDefault) {
  const std::string resolved = resolved_case(read_case_text(test_wheel(), "a.toml"));
  for (const std::string key :
       {"phase_deg = 0.0", "half_angle_deg = 40.0", "positions_per_turn = 72",
        "survival_percent = 90.0", "density = 1.0", "thread_friction = ", "weld_class = ",
        "load_factor = ", "youngs_modulus_MPa = ", "density_kg_m3 = 7850.0"})
    EXPECT_NE(resolved.find(key), std::string::npos) << key << "\n" << resolved;
}

TEST(Schema, KnowsSectionsKeysAndRanges) {
  const std::string schema = case_schema();
  for (const std::string word : {"\"rig_test\"", "\"thickness_mm\"", "\"minimum\": 0.5",
                                 "\"additionalProperties\": false", "\"disc only\""})
    EXPECT_NE(schema.find(word), std::string::npos) << word;
}

}  // namespace
}  // namespace felloe::test
