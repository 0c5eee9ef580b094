// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that rim diameters follow the code rules and that the rim's section keeps the measures of
// the contour table.
#include "mesher/rim_contour.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "mesher/rim_section.h"

namespace felloe {
namespace {

const RimContour &row(const std::string &name) {
  for (const auto &c : rim_contours())
    if (c.name == name) return c;
  throw std::runtime_error(name);
}

// 25.4 code - 0.8 up to code 16, 25.4 code + 4.8 from 17; rule from memory of ISO 4000-1.
TEST(RimContour, SpecifiedDiametersFollowTheCode) {
  const double expected[8][2] = {{13, 329.4}, {14, 354.8}, {15, 380.2}, {16, 405.6},
                                 {17, 436.6}, {18, 462.0}, {19, 487.4}, {20, 512.8}};
  for (const auto &e : expected) EXPECT_NEAR(specified_rim_diameter(e[0]), e[1], 1e-9);
}

// pi times the specified diameter, rounded to 0.01 mm.
TEST(RimContour, SeatCircumferencesFollowTheDiameter) {
  EXPECT_NEAR(pi * specified_rim_diameter(15), 1194.43, 0.005);
  EXPECT_NEAR(pi * specified_rim_diameter(16), 1274.23, 0.005);
  EXPECT_NEAR(pi * specified_rim_diameter(17), 1371.62, 0.005);
}

// Rows as printed in JIS D 4218:2021 table 3.
TEST(RimContour, RowsAreThoseOfTheTable) {
  const RimContour &j = row("J");
  EXPECT_EQ(j.flange_width, 11.0);
  EXPECT_EQ(j.flange_height, 17.5);
  EXPECT_EQ(j.seat_width, 19.5);
  EXPECT_EQ(j.well_depth, 17.3);
  EXPECT_EQ(j.well_width, 22.0);
  EXPECT_EQ(j.well_position, 45.0);
  EXPECT_EQ(j.flange_radius, 9.5);
  EXPECT_EQ(row("J22").well_depth, 22.0);
  EXPECT_EQ(row("4J").well_width, 19.0);
  EXPECT_EQ(row("B").flange_height, 14.5);
  EXPECT_EQ(row("K").flange_radius, 10.5);
}

/// The mid-line moved half a thickness to the tyre side: must be the contour again.
struct TyreSide {
  RimShape shape;
  const RimContour &c;
  RimSection section;
  TyreSide(const std::string &name, double diameter, double width, double t, double well_z = 1e3)
      : shape{name, diameter, width, t, 30}, c(row(name)), section(rim_section(shape, c, well_z)) {}
  Vec2 at(double s) const { return section.sheet.section_point(s, 1); }
  const Feature &feature(const std::string &name) const {
    for (const auto &f : section.features)
      if (f.name == name) return f;
    throw std::runtime_error(name);
  }
};

class EveryContour
    : public ::testing::TestWithParam<std::tuple<const char *, int, double, double>> {};

TEST_P(EveryContour, KeepsTheTablesMeasures) {
  const auto [name, diameter, width, t] = GetParam();
  const TyreSide rim(name, diameter, width, t);
  const double d = specified_rim_diameter(diameter), w = rim_width(width);
  const double plane = -30 + 0.5 * w;  // outboard flange plane, inset 30
  double top = 0, bottom = 1e9;
  for (int i = 0; i <= 4000; ++i) {
    const double r = rim.at(rim.section.sheet.length() * i / 4000)[0];
    top = std::max(top, r);
    bottom = std::min(bottom, r);
  }
  EXPECT_NEAR(top, 0.5 * d + rim.c.flange_height, 1e-9);        // G
  EXPECT_NEAR(bottom, 0.5 * d - rim.c.well_depth, 1e-9);        // H
  EXPECT_NEAR(rim.at(0)[1], plane + rim.c.flange_width, 1e-9);  // B
  EXPECT_NEAR(rim.at(rim.section.sheet.length())[1], plane - w - rim.c.flange_width, 1e-9);
  // M: the well bottom is reached within the largest well position
  EXPECT_LE(plane - rim.at(rim.section.well_s0)[1], rim.c.well_position);
  EXPECT_GE(rim.section.well_s1 - rim.section.well_s0, rim.c.well_width - 1e-9);  // L
  for (const char *side : {"bead seat outboard", "bead seat inboard"}) {
    const Feature &seat = rim.feature(side);
    const bool out = side[10] == 'o';
    const Vec2 heel = rim.at(out ? seat.s0 : seat.s1), toe = rim.at(out ? seat.s1 : seat.s0);
    const double flange = out ? plane : plane - w, towards_well = out ? -1 : 1;
    EXPECT_GE((toe[1] - flange) * towards_well, rim.c.seat_width - 1e-9) << side;  // P
    // 5 degrees, falling towards the well, D at the flange plane
    const double slope = (heel[0] - toe[0]) / std::abs(heel[1] - toe[1]);
    EXPECT_NEAR(slope, std::tan(5 * pi / 180), 1e-9) << side;
    EXPECT_NEAR(heel[0] + slope * std::abs(heel[1] - flange), 0.5 * d, 1e-9) << side;
    EXPECT_NEAR(19.5 * slope, 1.706, 0.0005);  // rise over a 19.5 mm seat, plane geometry
  }
  // the flange's curl has R2 on the tyre side; no bend is tighter than the sheet is thick
  EXPECT_NEAR(1 / std::abs(rim.section.sheet.meridian().pieces()[1].curvature) + 0.5 * t,
              rim.c.flange_radius, 1e-9);
  for (const auto &p : rim.section.sheet.meridian().pieces())
    if (p.is_bend()) {
      EXPECT_GE(1 / std::abs(p.curvature), t);
    }
}

INSTANTIATE_TEST_SUITE_P(
    Rims, EveryContour,
    ::testing::Values(std::make_tuple("J", 15, 6.0, 2.5), std::make_tuple("J", 14, 4.5, 2.0),
                      std::make_tuple("J", 18, 9.0, 3.5), std::make_tuple("J22", 22, 8.0, 3.0),
                      std::make_tuple("4J", 14, 4.0, 2.2), std::make_tuple("B", 13, 4.5, 2.0),
                      std::make_tuple("K", 16, 6.5, 4.0)));

TEST(RimSection, WellReachesAsFarAsTheDiscNeeds) {
  const TyreSide rim("J", 15, 6, 2.5, -30);
  EXPECT_NEAR(rim.at(rim.section.well_s1)[1], -30, 1e-9);
  // even with the well at its farthest place the inboard seat keeps its width (checked above for
  // the nearest place)
  const double limit = well_inboard_limit_z(rim.shape, rim.c);
  const TyreSide far("J", 15, 6, 2.5, limit);
  const Feature &seat = far.feature("bead seat inboard");
  EXPECT_GE(far.at(seat.s0)[1] - (-30 - 0.5 * rim_width(6)), 19.5 - 1e-9);
}

TEST(RimSection, InsideRadiusIsTheWellsInnerSurface) {
  const TyreSide rim("J", 15, 6, 2.5);
  const double s = 0.5 * (rim.section.well_s0 + rim.section.well_s1);
  EXPECT_NEAR(rim.section.sheet.section_point(s, -1)[0], rim_inside_radius(rim.shape, rim.c), 1e-9);
  // 0.5 x 380.2 - 17.3 - 2.5
  EXPECT_NEAR(rim_inside_radius(rim.shape, rim.c), 170.3, 1e-9);
}

}  // namespace
}  // namespace felloe
