// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that the layout follows the description and that every impossible shape is named.
#include "mesher/layout.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "mesher/error.h"
#include "tests/support/reference_wheel.h"

namespace felloe {
namespace {

std::string refusal(const Wheel &w) {
  try {
    layout(w);
  } catch (const Error &e) {
    return e.what();
  }
  return "accepted";
}

void expect_refused(const Wheel &w, const std::string &part) {
  const std::string text = refusal(w);
  EXPECT_NE(text.find(part), std::string::npos) << text;
}

TEST(Layout, HubFaceLiesInTheOriginPlane) {
  const WheelLayout w = layout(reference_wheel());
  EXPECT_NEAR(w.disc.section_point(0, -1)[1], 0, 1e-12);
  EXPECT_NEAR(w.disc.section_point(w.hub_face_s, -1)[1], 0, 1e-12);
  EXPECT_NEAR(w.disc.section_point(w.hub_face_s, 0)[0], 71, 1e-9);
}

TEST(Layout, RimMidPlaneIsInboardOfTheHubFaceByTheInset) {
  const WheelLayout w = layout(reference_wheel());
  const double out = w.rim.section_point(0, 1)[1], in = w.rim.section_point(w.rim.length(), 1)[1];
  EXPECT_NEAR(0.5 * (out + in), -40, 1e-9);
}

TEST(Layout, FlangeOutsideIsTheRimsInside) {
  const WheelLayout w = layout(reference_wheel());
  const double shift = w.rim_overlap_s0 - w.flange_s0;
  for (double s = w.flange_s0; s < w.disc.length(); s += 0.7) {
    const Vec2 a = w.disc.section_point(s, 1), b = w.rim.section_point(s + shift, -1);
    EXPECT_NEAR(a[0], b[0], 1e-10);
    EXPECT_NEAR(a[1], b[1], 1e-10);
  }
  EXPECT_NEAR(w.rim_weld_root_s - w.rim_overlap_s0, w.disc.length() - w.flange_s0, 1e-10);
  EXPECT_NEAR(w.rim_weld_toe_s - w.rim_weld_root_s, 3.8, 1e-12);
}

TEST(Layout, FlangeRadiusFollowsAThicknessThatThinsTowardsIt) {
  Wheel wheel = reference_wheel();
  wheel.disc.thickness = {{0, 3.8}, {60, 3.4}, {140, 3.5}};
  const WheelLayout w = layout(wheel);
  EXPECT_NEAR(w.disc.section_point(w.disc.length(), 1)[0], 170.3, 1e-9);
  EXPECT_NEAR(w.disc.section_point(w.disc.length(), 0)[0], 170.3 - 1.75, 1e-9);
}

TEST(Layout, BendsCarryTheirTradeNames) {
  const WheelLayout w = layout(reference_wheel());
  ASSERT_EQ(w.disc_features.size(), 3u);
  EXPECT_EQ(w.disc_features[0].name, "nave bend");
  EXPECT_EQ(w.disc_features[1].name, "crown bend");
  EXPECT_EQ(w.disc_features[2].name, "flange bend");
}

TEST(Layout, SymmetryIsTheCommonDivisorOfTheHoleCounts) {
  Wheel w = reference_wheel();
  EXPECT_EQ(layout(w).symmetry, 5);
  w.vents.count = 8;
  EXPECT_EQ(layout(w).symmetry, 1);
  EXPECT_EQ(layout(reference_wheel_without_holes()).symmetry, 0);
}

TEST(Layout, SeatConeReachesItsDiameterOnTheOutboardSide) {
  const Hole h = layout(reference_wheel()).bolts.at(0);
  // 60 degree cone from 16.5 to 14 mm: depth 1.25 / tan 30 deg = 2.1651 mm of 3.8 mm
  EXPECT_NEAR(h.cone_eta, 1 - 2 * 2.165064 / 3.8, 1e-6);
  EXPECT_NEAR(h.wall_radius(1), 8.25, 1e-12);
  EXPECT_NEAR(h.wall_radius(h.cone_eta), 7, 1e-12);
}

TEST(Layout, DiscAloneNeedsNeitherRimNorHoles) {
  const WheelLayout w = layout(flat_plate(60, 300, 4));
  EXPECT_NEAR(w.disc.length(), 120, 1e-12);
  EXPECT_EQ(w.rim.length(), 0);
}

TEST(Layout, NarrowAndWideRimsAreAccepted) {
  Wheel w = reference_wheel();
  w.rim.width_code = 6.5;
  w.rim.inset = 40;
  w.disc.meridian[2].z = 6;
  w.disc.meridian[3].z = -16;
  EXPECT_EQ(refusal(w), "accepted");
}

TEST(LayoutRefuses, VentsThatLeaveTheirStraight) {
  Wheel w = reference_wheel();
  w.vents.diameter = 48;
  expect_refused(w,
                 "vent holes: a hole of 48.0 mm diameter on the 272.0 mm circle leaves its "
                 "straight stretch (s 93.4 ... 147.5 mm");
  w = reference_wheel();
  w.vents.pitch_circle_diameter = 250;
  expect_refused(w, "make the holes smaller or move the circle to 25");
  w.vents.pitch_circle_diameter = 200;
  expect_refused(w, "lies in a bend");
  w.vents.pitch_circle_diameter = 400;
  expect_refused(w,
                 "the circle of 400.0 mm diameter misses the disc, which spans 57.0 to 336.8 mm");
}

TEST(LayoutRefuses, ThinLigaments) {
  Wheel w = reference_wheel();
  w.vents.count = 28;  // pitch 272 sin(pi / 28) = 30.45 mm
  expect_refused(w, "ligament between neighbours is 2.5 mm");
  w = reference_wheel();
  w.bolts.pitch_circle_diameter = 72;
  expect_refused(w, "bolt holes: the ligament to the bore is 0.5 mm");
  w = reference_wheel();
  w.bolts.pitch_circle_diameter = 126;
  expect_refused(w, "bolt holes: between holes and border of the hub face lie 1.0 mm");
}

TEST(LayoutRefuses, HubFaceBeyondTheFlatHub) {
  Wheel w = reference_wheel();
  w.disc.hub_face_diameter = 160;
  expect_refused(w, "reaches beyond the flat hub, which ends at 150.9 mm");
}

TEST(LayoutRefuses, HubFacesThatDoNotExist) {
  Wheel w = reference_wheel();
  w.disc.hub_face_diameter = 50;
  expect_refused(w, "does not exceed the bore's 57.0 mm");
  w.disc.hub_face_diameter = 900;
  expect_refused(w, "hub face: its diameter of 900.0 mm reaches beyond the flat hub");
}

TEST(LayoutRefuses, BoltsInsideTheBore) {
  Wheel w = reference_wheel();
  w.bolts.pitch_circle_diameter = 40;
  expect_refused(w, "bolt holes: the circle of 40.0 mm diameter misses the disc");
}

// Numbers from a file can be anything: every one of them replaced by nonsense in turn.
TEST(Layout, NonsenseIsRefusedNeverFatal) {
  const double nan = std::nan(""), inf = INFINITY;
  int refused = 0, tried = 0;
  for (const double x : {nan, inf, -inf, -1.0, 0.0, 1e-9, 1e9, 1e300}) {
    for (int field = 0; field < 25; ++field) {
      Wheel w = reference_wheel();
      double *fields[25] = {&w.disc.bore_diameter,
                            &w.disc.hub_face_diameter,
                            &w.disc.meridian[0].r,
                            &w.disc.meridian[0].z,
                            &w.disc.meridian[0].bend_radius,
                            &w.disc.meridian[1].r,
                            &w.disc.meridian[1].z,
                            &w.disc.meridian[1].bend_radius,
                            &w.disc.meridian[2].z,
                            &w.disc.meridian[2].bend_radius,
                            &w.disc.meridian[3].z,
                            &w.disc.thickness[0].thickness,
                            &w.bolts.pitch_circle_diameter,
                            &w.bolts.diameter,
                            &w.bolts.seat_cone_angle,
                            &w.bolts.seat_diameter,
                            &w.vents.pitch_circle_diameter,
                            &w.vents.diameter,
                            &w.vents.phase,
                            &w.rim.diameter_code,
                            &w.rim.width_code,
                            &w.rim.thickness,
                            &w.rim.inset,
                            &w.weld.leg,
                            &w.disc.thickness[0].s};
      *fields[field] = x;
      ++tried;
      refused += refusal(w) != "accepted";  // any other exception fails the test
    }
  }
  // legal: z, phase, station or cone angle of 0 or next to it, tiny holes and so on
  EXPECT_GT(refused, tried / 2);
}

TEST(LayoutRefuses, SeatConeDeeperThanTheSheet) {
  Wheel w = reference_wheel();
  w.bolts.seat_diameter = 20;
  // largest: 14 + 2 x 0.9 x 3.8 tan 30 deg = 17.95
  expect_refused(w, "make the seat diameter smaller than 17.9 mm");
}

TEST(LayoutRefuses, BendsTighterThanTheSheet) {
  Wheel w = reference_wheel();
  w.disc.meridian[0].bend_radius = 2;
  expect_refused(w,
                 "nave bend: a mid-line radius of 2.0 mm is too tight for a thickness of 3.8 mm; "
                 "make it at least 2.4 mm");
}

TEST(LayoutRefuses, FlangesThatMissTheWell) {
  Wheel w = reference_wheel();
  w.disc.meridian[2] = {165, 0.5, 12, false};
  w.disc.meridian[3] = {165, -22, 0, false};
  expect_refused(w, "has a radius of 165.0 mm; the rim's well asks for 168.4 mm");
  w.disc.meridian[2].r = w.disc.meridian[3].r = 168.2;  // within 0.3 mm: taken as the rim's
  EXPECT_EQ(refusal(w), "accepted");
  w = reference_wheel();
  w.disc.meridian[2].z = 8;
  expect_refused(w, "outboard of the well bottom");
  w = reference_wheel();
  w.disc.meridian[3].z = -90;
  expect_refused(w, "beyond the farthest place of the well bottom");
  w = reference_wheel();
  w.disc.meridian[3].z = 30;
  expect_refused(w, "must run inboard");
}

TEST(LayoutRefuses, ThicknessThatChangesAlongTheFlange) {
  Wheel w = reference_wheel();
  w.disc.thickness = {{0, 3.8}, {175, 3.4}};
  expect_refused(w, "thickness changes along the flange");
}

TEST(LayoutRefuses, WeldsOutsideThePracticalRange) {
  Wheel w = reference_wheel();
  w.weld.leg = 2;
  expect_refused(w, "accepted are 2.3 to 7.6 mm");
}

TEST(LayoutRefuses, RimsOutsideTheContoursRange) {
  Wheel w = reference_wheel();
  w.rim.width_code = 4;
  expect_refused(w, "width code 4.0 is below 4.5");
  w = reference_wheel();
  w.rim.diameter_code = 24;
  expect_refused(w, "has no diameter code 24.0");
  w.rim.contour = "Q";
  expect_refused(w, "choose one of J, J22, 4J, B, K");
}

TEST(LayoutRefuses, DiscsThatTouchTheRimOrThemselves) {
  Wheel w = reference_wheel();
  w.vents.count = 0;
  // out through the outboard slope of the well and back to the flange
  w.disc.meridian = {{82, 0, 12, false},  {100, 28, 14, false}, {160, 60, 8, false},
                     {184, 20, 8, false}, {0, -4, 5, true},     {0, -22, 0, true}};
  expect_refused(w, "touches the rim");
}

TEST(LayoutRefuses, EveryProblemAtOnce) {
  Wheel w = reference_wheel();
  w.weld.leg = 20;
  w.vents.diameter = 60;
  w.bolts.pitch_circle_diameter = 126;
  const std::string text = refusal(w);
  EXPECT_NE(text.find("weld: "), std::string::npos) << text;
  EXPECT_NE(text.find("vent holes: "), std::string::npos) << text;
  EXPECT_NE(text.find("bolt holes: "), std::string::npos) << text;
  EXPECT_GE(std::count(text.begin(), text.end(), '\n'), 2);
}

TEST(LayoutRefuses, ValuesThatAreNoLengths) {
  Wheel w = reference_wheel();
  w.disc.thickness = {{0, -3.8}};
  w.bolts.count = -1;
  const std::string text = refusal(w);
  EXPECT_NE(text.find("disc: thickness [mm]: is -3.8; accepted is more than 0, up to 100.0"),
            std::string::npos);
  EXPECT_NE(text.find("bolt holes: count: is -1.0; accepted is 0.0 to 100.0"), std::string::npos);
}

}  // namespace
}  // namespace felloe
