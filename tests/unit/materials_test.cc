// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that every grade is complete and that the printed strengths are those of its standard.
#include <gtest/gtest.h>

#include <set>

#include "mesher/error.h"
#include "solver/material.h"
#include "solver/nearest_name.h"

namespace felloe {
namespace {

TEST(Materials, EveryRowIsCompleteAndPlausible) {
  std::set<std::string> names;
  for (const auto &m : materials()) {
    SCOPED_TRACE(m.name);
    EXPECT_TRUE(names.insert(m.name).second);
    EXPECT_FALSE(m.summary.empty());
    EXPECT_FALSE(m.source.empty());
    EXPECT_FALSE(m.confidence.empty());
    EXPECT_LT(m.yield_strength, m.tensile_strength);
    const bool steel = m.family == MaterialFamily::steel;
    EXPECT_NEAR(m.youngs_modulus, steel ? 206e3 : 70e3, 3e3);
    EXPECT_NEAR(m.density, steel ? 7.85e-6 : 2.7e-6, 0.03e-6);  // kg/mm3
    EXPECT_NEAR(m.poissons_ratio, steel ? 0.30 : 0.33, 1e-12);
  }
}

// EN 10149-2: smallest yield strength, smallest tensile strength.
TEST(Materials, HighYieldSteelsFollowEn10149) {
  const double rows[][2] = {{315, 390}, {355, 430}, {420, 480}, {460, 520}, {500, 550}};
  for (const auto &row : rows) {
    const auto &m = material("S" + std::to_string(static_cast<int>(row[0])) + "MC");
    EXPECT_EQ(m.yield_strength, row[0]);
    EXPECT_EQ(m.tensile_strength, row[1]);
  }
}

// EN 10111 prints a largest tensile strength only; 270 MPa is common practice without source.
TEST(Materials, SoftSteelsSayThatTheirTensileStrengthIsAssumed) {
  for (const char *name : {"DD11", "DD12", "DD13", "DD14"}) {
    EXPECT_EQ(material(name).tensile_strength, 270);
    EXPECT_NE(material(name).confidence.find("no source"), std::string::npos);
  }
}

TEST(Materials, UnknownGradeNamesTheNearest) {
  try {
    material("s355 mc");
    FAIL() << "no error";
  } catch (const Error &e) {
    EXPECT_NE(std::string(e.what()).find("did you mean 'S355MC'"), std::string::npos) << e.what();
  }
}

TEST(NearestNames, AcceptSwapsCapitalsAndParts) {
  const std::vector<std::string> known = {"moment", "angle", "surface area"};
  EXPECT_EQ(nearest_names("momnet", known, 1)[0], "moment");
  EXPECT_EQ(nearest_names("ANGEL", known, 1)[0], "angle");
  EXPECT_EQ(nearest_names("area", known, 1)[0], "surface area");
  EXPECT_TRUE(nearest_names("x", {}, 3).empty());
}

}  // namespace
}  // namespace felloe
