// SPDX-License-Identifier: GPL-3.0-or-later
// Proves what is read in front of the weld toes of a meshed wheel, and what residual stress makes
// of the stress ratio.
#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "mesher/error.h"
#include "mesher/wheel_mesh.h"
#include "post/hot_spots.h"
#include "tests/support/reference_wheel.h"

namespace felloe {
namespace {

struct MeshedWheel {
  WheelLayout layout = felloe::layout(reference_wheel());
  Mesh mesh = wheel_mesh(layout, mesh_size(0.5));
};

const MeshedWheel &wheel() {
  static const MeshedWheel w;
  return w;
}

const Sheet &sheet_of(Part part) {
  return part == Part::rim ? wheel().layout.rim : wheel().layout.disc;
}

double toe_s(Part part) {
  return part == Part::rim ? wheel().layout.rim_weld_toe_s : wheel().layout.disc.length();
}

/// A stress along the sheet, of the distance from the toe [mm] and of eta.
template <class Profile>
std::vector<Stress> along_sheet(Part part, const Profile &profile) {
  const Mesh &mesh = wheel().mesh;
  std::vector<Stress> all(mesh.nodes.size());
  for (std::size_t n = 0; n < all.size(); ++n) {
    if (mesh.node_parts[n] != part) continue;
    const SheetPoint &p = mesh.node_points[n];
    const Vec3 &x = mesh.nodes[n];
    const Vec3 d = revolved(sheet_of(part).meridian().at(p.s).tangent, std::atan2(x[1], x[0]));
    const double s = profile(std::abs(p.s - toe_s(part)), p.eta);
    all[n] = {{s * d[0] * d[0], s * d[1] * d[1], s * d[2] * d[2], s * d[0] * d[1], s * d[1] * d[2],
               s * d[2] * d[0]}};
  }
  return all;
}

/// Way along the face eta = -1 from the toe to where the mid-line has gone `way` away from it [mm].
double on_face(Part part, double way) {
  const double away = part == Part::rim ? 1 : -1;
  const int steps = 200;
  double length = 0;
  for (int i = 0; i < steps; ++i) {
    const Vec2 a = sheet_of(part).section_point(toe_s(part) + away * way * i / steps, -1);
    const Vec2 b = sheet_of(part).section_point(toe_s(part) + away * way * (i + 1) / steps, -1);
    length += std::hypot(b[0] - a[0], b[1] - a[1]);
  }
  return length;
}

double parabola(double x, double) { return 130 - 3 * x + 0.05 * x * x; }

// Between the nodes of a cell stress is read as the quadratic that it is: exact for a parabola,
// wherever the read-out points lie. The rules on one profile: IIW recommendations (from memory).
// Distances in mm run along the face and into the next bend: there a parabola of the way on the
// face is none of the mid-line's, and a cell's quadratic misses it by some 1e-4.
TEST(WeldToes, EveryReadOutOnTheFaceReadsTheProfile) {
  for (const ToeReadOut &rule : toe_read_outs()) {
    if (rule.over_thickness) continue;
    SCOPED_TRACE(rule.name);
    for (const RatedPlace &place : weld_toe_places(wheel().layout, wheel().mesh, rule)) {
      SCOPED_TRACE(place.feature);
      const bool bent = !rule.times_thickness;
      const std::vector<Stress> stress = along_sheet(place.part, [&](double way, double eta) {
        return parabola(bent ? on_face(place.part, std::min(way, 20.0)) : way, eta);
      });
      const double t = sheet_of(place.part).thickness().at(toe_s(place.part));
      EXPECT_EQ(place.thickness, t);
      const double wanted = hot_spot_stress(rule, t, [](double x) { return parabola(x, -1); });
      ASSERT_GT(place.toe_points.size(), 5u);
      for (const ToePoint &toe : place.toe_points)
        EXPECT_NEAR(toe.of(stress), wanted, bent ? 0.02 : 1e-6);
    }
  }
}

// Membrane 80, bending 60 at the face, falling by 2 MPa/mm along the sheet, and a notch part
// without force and moment: what is left at the toe is 140.
TEST(WeldToes, ThroughThicknessLeavesTheNotchOut) {
  const ToeReadOut &rule = toe_read_out("through thickness");
  for (const RatedPlace &place : weld_toe_places(wheel().layout, wheel().mesh, rule)) {
    SCOPED_TRACE(place.feature);
    const std::vector<Stress> stress = along_sheet(place.part, [](double x, double eta) {
      return 80 - 60 * eta - 2 * x + 40 * std::exp(-x / 3) * (eta * eta - 1 / 3.);
    });
    ASSERT_GT(place.toe_points.size(), 5u);
    for (const ToePoint &toe : place.toe_points) EXPECT_NEAR(toe.of(stress), 140, 1e-6);
  }
}

TEST(WeldToes, OneSectorHasEveryPointOfTheTurn) {
  const auto places = weld_toe_places(wheel().layout, wheel().mesh, toe_read_outs().front());
  ASSERT_EQ(places.size(), 2u);
  const double sector = 2 * pi / wheel().mesh.symmetry;
  for (const RatedPlace &place : places) {
    std::set<long> angles;
    for (const ToePoint &toe : place.toe_points) {
      const double theta = std::atan2(toe.toe[1], toe.toe[0]);
      EXPECT_GT(theta, -1e-6);
      EXPECT_LT(theta, sector + 1e-6);
      EXPECT_NEAR(norm(toe.across), 1, 1e-12);
      EXPECT_TRUE(angles.insert(std::lround(1e6 * theta)).second) << theta;
    }
  }
}

// The flange of this wheel is some 20 mm long.
TEST(WeldToes, AReadOutBeyondTheSheetIsRefusedAndSaysWhatFits) {
  ToeReadOut far = toe_read_outs().front();
  far.name = "far";
  far.times_thickness = false;
  far.distances = {4, 300};
  try {
    weld_toe_places(wheel().layout, wheel().mesh, far);
    FAIL() << "no error";
  } catch (const Error &e) {
    const std::string text = e.what();
    EXPECT_NE(text.find("weld toe disc: read-out 'far' reads 300 mm"), std::string::npos) << text;
    EXPECT_NE(text.find("'linear'"), std::string::npos) << text;
  }
}

/// Stress ratio R at a largest stress of 100 MPa.
double f(const char *residual, double ratio) {
  return weld_residual_stress(residual).enhancement(100 * ratio, 100);
}

// IIW recommendations, f(R) (from memory): low 1.6, 1.2 - 0.4 R, 1; medium 1.3, 0.9 - 0.4 R, 1;
// high
// 1. Continuous where the lines meet.
TEST(WeldResidualStress, EnhancementOverTheStressRatio) {
  const double ratio[] = {-3, -1, -0.5, -0.25, 0, 0.5, 0.8};
  const double low[] = {1.6, 1.6, 1.4, 1.3, 1.2, 1.0, 1.0},
               medium[] = {1.3, 1.3, 1.1, 1.0, 1.0, 1.0, 1.0};
  for (int i = 0; i < 7; ++i) {
    EXPECT_NEAR(f("low", ratio[i]), low[i], 1e-12) << ratio[i];
    EXPECT_NEAR(f("medium", ratio[i]), medium[i], 1e-12) << ratio[i];
    EXPECT_EQ(f("high", ratio[i]), 1);
  }
  EXPECT_NEAR(weld_residual_stress("low").enhancement(-80, -10), 1.6, 1e-12);
  EXPECT_EQ(weld_residual_stress("low").enhancement(50, 50), 1);
  EXPECT_THROW(weld_residual_stress("lo"), Error);
}

TEST(WeldResidualStress, EveryRowIsContinuousNeverBelowOneAndSaysItsSource) {
  for (const WeldResidualStress &row : weld_residual_stresses()) {
    SCOPED_TRACE(row.name);
    EXPECT_FALSE(row.summary.empty());
    EXPECT_FALSE(row.source.empty());
    EXPECT_FALSE(row.confidence.empty());
    double last = row.enhancement(-300, 100);
    for (double r = -3; r < 0.99; r += 0.01) {
      const double now = row.enhancement(100 * r, 100);
      EXPECT_GE(now, 1);
      EXPECT_LE(now, last);            // tension never helps
      EXPECT_NEAR(now, last, 0.0041);  // slope 0.4
      last = now;
    }
  }
}

// A toe that swings about -50 MPa, R = -3, with low residual stress: 1.6 times the class.
TEST(WeldResidualStress, LowersTheStressThatMeetsTheClass) {
  RatingRules rules;
  rules.criterion = &default_criterion();
  rules.survival = 0.95;
  Material steel;
  steel.tensile_strength = 580;
  steel.yield_strength = 330;
  steel.youngs_modulus = 206000;
  rules.materials = {{Part::disc, steel}, {Part::rim, steel}, {Part::weld, steel}};
  rules.weld_class = "IIW FAT 90 hot-spot";
  const auto places = weld_toe_places(wheel().layout, wheel().mesh, toe_read_outs().front());
  const auto steady = along_sheet(Part::rim, [](double, double) { return -50; }),
             swing = along_sheet(Part::rim, [](double, double) { return 100; });
  TurnHistory turn;
  turn.harmonic = [&](int n) { return HarmonicHistory{steady[n], swing[n], {}}; };
  const auto spot = [&](const char *residual) {
    rules.weld_residual_stress = residual;
    return hot_spots(wheel().layout, wheel().mesh, {places[1]}, turn, {}, rules, 1e5).front();
  };
  for (const auto &[residual, by] : {std::pair("high", 1.0), {"medium", 1.3}, {"low", 1.6}}) {
    const HotSpot s = spot(residual);
    EXPECT_NEAR(s.amplitude, 100, 1e-6);
    EXPECT_NEAR(s.mean, -50, 1e-6);
    EXPECT_NEAR(s.fully_reversed, 100 / by, 1e-6) << residual;
    EXPECT_NEAR(s.life_design, 2e6 * std::pow(90 / (200 / by), 3), 1) << residual;
  }
}

}  // namespace
}  // namespace felloe
