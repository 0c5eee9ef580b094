// SPDX-License-Identifier: GPL-3.0-or-later
// Proves the harmonic model against closed forms of thick cylinders, press fits, rotating discs and
// a bent tube.
#include <gtest/gtest.h>

#include <cmath>

#include "solver/harmonic_model.h"
#include "tests/support/section_block.h"

namespace felloe {
namespace {

Material steel() {
  Material m;
  m.name = "steel";
  m.youngs_modulus = 210000;
  m.poissons_ratio = 0.3;
  return m;
}

const std::map<Part, Material> all_steel{{Part::disc, steel()}, {Part::rim, steel()}};

HarmonicSupport axial(const std::string &place) { return {place, {false, false, true}, {}}; }

HarmonicTraction pressure(double p) {
  return [p](const Vec2 &, const Vec2 &n) { return HarmonicVector{-p * n[0], 0, -p * n[1]}; };
}

/// Cells r1 : r0 in geometric series: stress falls with powers of r.
SectionMesh ring(double r0, double r1, double height, int n_r, Part part = Part::disc,
                 const std::string &prefix = "") {
  return test::section_block(
      n_r, 1,
      [=](double a, double b) {
        return Vec2{r0 * std::pow(r1 / r0, a), b * height};
      },
      part, prefix);
}

HarmonicSolution solve_one(const SectionMesh &mesh, const HarmonicSupports &supports,
                           const HarmonicLoad &load) {
  return HarmonicModel(mesh, all_steel).solve(supports, {load}).front();
}

// Stress tolerances: linear extrapolation from Gauss points to a node at the border of a cell of
// relative size h leaves about h^2 of the value: 60 cells over a factor two in r give 1.3e-4 / 4.
constexpr double stress_tolerance = 1e-4;

// Lame; Timoshenko and Goodier, Theory of Elasticity (from memory). a 50, b 100, inner pressure
// 100: srr, stt = p a^2 / (b^2 - a^2) (1 -+ b^2 / r^2).
TEST(ThickCylinder, StressAndDisplacementFollowLame) {
  const SectionMesh mesh = ring(50, 100, 2, 60);
  HarmonicLoad load;
  load.name = "inner pressure";
  load.tractions = {{"inner", pressure(100)}};
  HarmonicSupports open;
  open.held = {axial("bottom")};
  const auto s = solve_one(mesh, open, load);
  EXPECT_NEAR(s.displacement[test::node_at(mesh, 50, 0)][0], 0.046825397, 1e-6 * 0.0468);
  EXPECT_NEAR(s.displacement[test::node_at(mesh, 100, 0)][0], 0.031746032, 1e-6 * 0.0317);
  for (const double r : {50., 70.71067811865476, 100.}) {
    const int node = test::node_at(mesh, r, 1);
    EXPECT_NEAR(s.stress[node].rr, 100. / 3 * (1 - 1e4 / (r * r)), 100 * stress_tolerance);
    EXPECT_NEAR(s.stress[node].tt, 100. / 3 * (1 + 1e4 / (r * r)), 167 * stress_tolerance);
  }

  HarmonicSupports plane_strain;
  plane_strain.held = {axial("bottom"), axial("top")};
  const auto e = solve_one(mesh, plane_strain, load);
  EXPECT_NEAR(e.displacement[0][0], 0.045396825, 1e-6 * 0.0454);
  EXPECT_NEAR(e.stress[test::node_at(mesh, 70.7, 1)].zz, 20, 20 * stress_tolerance);

  HarmonicLoad closed = load;
  closed.tractions.push_back({"top", pressure(-100. / 3)});
  EXPECT_NEAR(solve_one(mesh, open, closed).displacement[0][0], 0.044444444, 1e-6 * 0.0444);
}

// Felippa's thick cylinder: a 4, b 10, inner pressure 10, E 1000, nu 0; Lame.
TEST(ThickCylinder, WithoutLateralContractionFollowsLame) {
  const SectionMesh mesh = ring(4, 10, 1, 60);
  Material m = steel();
  m.youngs_modulus = 1000;
  m.poissons_ratio = 0;
  HarmonicLoad load;
  load.name = "inner pressure";
  load.tractions = {{"inner", pressure(10)}};
  HarmonicSupports open;
  open.held = {axial("bottom")};
  const auto s = HarmonicModel(mesh, {{Part::disc, m}}).solve(open, {load}).front();
  EXPECT_NEAR(s.displacement[test::node_at(mesh, 4, 0)][0], 0.05523810, 1e-6 * 0.0552);
  EXPECT_NEAR(s.displacement[test::node_at(mesh, 10, 0)][0], 0.03809524, 1e-6 * 0.0381);
}

struct PressFit {
  double a, b, c, interference, pressure, hub_tt_b, shaft_tt_b;
};

/// Two rings of height 1 without friction; the shaft or disc inside, the hub or rim outside.
HarmonicSolution press_fitted(const PressFit &fit, SectionMesh &mesh) {
  mesh = fit.a > 0 ? ring(fit.a, fit.b, 1, 30, Part::disc, "disc ")
                   : test::rectangle(0, fit.b, 0, 1, 30, 1, Part::disc, "disc ");
  test::append(mesh, ring(fit.b, fit.c, 1, 30, Part::rim, "rim "));
  test::pair_up(mesh, "disc outer", "rim inner");
  HarmonicSupports supports;
  supports.held = {axial("disc bottom"), axial("rim bottom")};
  HarmonicLoad load;
  load.name = "press fit";
  load.interference = fit.interference;
  return solve_one(mesh, supports, load);
}

// p = d E (b^2 - a^2)(c^2 - b^2) / (2 b^3 (c^2 - a^2)), plane stress, equal steel; Lame twice.
TEST(PressFit, PressureAndHoopStressFollowLame) {
  const PressFit cases[] = {{0, 30, 60, 0.03, 78.75, 131.25, -78.75},
                            {20, 30, 60, 0.03, 49.21875, 82.03125, -127.96875},
                            {100, 104, 110, 0.05, 2.328602, 41.559371, -61.730769 + 2.328602}};
  for (const PressFit &fit : cases) {
    SectionMesh mesh;
    const auto s = press_fitted(fit, mesh);
    ASSERT_EQ(mesh.press_fit.size(), 3u);
    for (const PressFitPair &pair : mesh.press_fit) {
      const HarmonicStress &disc = s.stress[pair.disc_node], &rim = s.stress[pair.rim_node];
      const double tolerance = 2e-4 * fit.hub_tt_b;
      EXPECT_NEAR(rim.rr, -fit.pressure, tolerance);
      EXPECT_NEAR(disc.rr, -fit.pressure, tolerance);
      EXPECT_NEAR(rim.tt, fit.hub_tt_b, tolerance);
      EXPECT_NEAR(disc.tt, fit.shaft_tt_b, tolerance);
      EXPECT_NEAR(s.displacement[pair.rim_node][0] - s.displacement[pair.disc_node][0],
                  fit.interference, 1e-12);
    }
    EXPECT_LT(s.balance_error, 1e-9);
    // Work of the pressure over the interference: p d 2 pi b h / 2.
    const double work = fit.pressure * fit.interference * pi * fit.b;
    EXPECT_NEAR(s.strain_energy, work, 1e-5 * work);
  }
}

// stt - srr of the disc side in the third case follows from the inner ring alone:
// stt(a) = -2 p b^2 / (b^2 - a^2) = -61.730769.
TEST(PressFit, InnerRingOfDiscInRimFollowsLame) {
  SectionMesh mesh;
  const auto s = press_fitted({100, 104, 110, 0.05, 2.328602, 41.559371, 0}, mesh);
  EXPECT_NEAR(s.stress[test::node_at(mesh, 100, 0.5)].tt, -61.730769, 61.7 * stress_tolerance);
}

// Timoshenko and Goodier, rotating discs of uniform thickness (from memory); rho 7.85e-9 t/mm3,
// 300 rad/s, nu 0.3. Thickness 1 mm: plane stress holds to (t / r)^2.
TEST(RotatingDisc, StressAndDisplacementFollowPlaneStress) {
  HarmonicLoad load;
  load.name = "spin";
  load.body_force = [](const Vec2 &x) { return HarmonicVector{7.85e-9 * 300 * 300 * x[0], 0, 0}; };
  HarmonicSupports supports;
  supports.held = {axial("bottom")};

  const SectionMesh annulus = ring(50, 200, 1, 120);
  const auto s = solve_one(annulus, supports, load);
  EXPECT_NEAR(s.displacement[test::node_at(annulus, 50, 0)][0], 0.005624665, 1e-5 * 0.0056);
  EXPECT_NEAR(s.displacement[test::node_at(annulus, 200, 0)][0], 0.006097768, 1e-5 * 0.0061);
  EXPECT_NEAR(s.stress[test::node_at(annulus, 50, 0.5)].tt, 23.623594, 23.6 * 2e-4);
  const int middle = test::node_at(annulus, 100, 0.5);
  EXPECT_NEAR(s.stress[middle].rr, 6.557203, 6.56 * 2e-4);
  EXPECT_NEAR(s.stress[middle].tt, 13.622203, 13.6 * 2e-4);
  EXPECT_NEAR(s.stress[test::node_at(annulus, 200, 0.5)].tt, 6.402656, 6.4 * 2e-4);

  const SectionMesh disc = test::rectangle(0, 200, 0, 1, 60, 1);
  const auto solid = solve_one(disc, supports, load);
  EXPECT_NEAR(solid.stress[test::node_at(disc, 0, 0.5)].tt, 11.657250, 11.7 * 2e-4);
  EXPECT_NEAR(solid.stress[test::node_at(disc, 200, 0.5)].tt, 4.945500, 4.95 * 2e-4);
}

// Michell's series, plane strain; values agree with an independent high-order solution.
TEST(ThickCylinder, PressureOfHarmonicTwoFollowsMichell) {
  const SectionMesh mesh = ring(50, 100, 2, 60);
  HarmonicSupports supports;
  supports.held = {axial("bottom"), axial("top")};
  HarmonicLoad load;
  load.name = "outer pressure 10 cos 2 theta";
  load.n = 2;
  load.tractions = {{"outer", pressure(10)}};
  const auto s = solve_one(mesh, supports, load);
  const auto at = [&](double r) { return s.stress[test::node_at(mesh, r, 1)]; };
  EXPECT_NEAR(s.displacement[test::node_at(mesh, 50, 1)][0], -0.025251029, 1e-6 * 0.0253);
  EXPECT_NEAR(s.displacement[test::node_at(mesh, 100, 1)][0], -0.025923574, 1e-6 * 0.0259);
  EXPECT_NEAR(at(50).tt, 88.888889, 0.02);
  EXPECT_NEAR(at(100).rr, -10, 0.02);
  EXPECT_NEAR(at(100).tt, -45.555556, 0.02);
}

TEST(ThickCylinder, MiddleStressOfHarmonicTwoFollowsMichell) {
  const SectionMesh mesh = test::rectangle(50, 100, 0, 2, 50, 1);
  HarmonicSupports supports;
  supports.held = {axial("bottom"), axial("top")};
  HarmonicLoad load;
  load.name = "outer pressure 10 cos 2 theta";
  load.n = 2;
  load.tractions = {{"outer", pressure(10)}};
  const auto s = solve_one(mesh, supports, load).stress[test::node_at(mesh, 75, 1)];
  EXPECT_NEAR(s.rr, 0.914495, 0.01);
  EXPECT_NEAR(s.tt, 1.143118, 0.01);
  EXPECT_NEAR(s.rt, 18.404207, 0.01);
}

// Independent high-order solution, plane strain; srr at the borders is the pressure itself.
TEST(ThickCylinder, BalancedPressuresOfHarmonicOneAreReproduced) {
  const SectionMesh mesh = test::rectangle(50, 100, 0, 2, 50, 1);
  HarmonicSupports supports;
  supports.held = {axial("bottom"), axial("top"), {"inner bottom", {true, false, false}, {}}};
  HarmonicLoad load;
  load.name = "inner 10 cos theta, outer 5 cos theta";
  load.n = 1;
  load.tractions = {{"inner", pressure(10)}, {"outer", pressure(5)}};
  const auto s = solve_one(mesh, supports, load);
  const auto at = [&](double r) { return s.stress[test::node_at(mesh, r, 1)]; };
  EXPECT_NEAR(at(50).rr, -10, 0.005);
  EXPECT_NEAR(at(50).tt, 1.714286, 0.005);
  EXPECT_NEAR(at(75).rr, -6.481481, 0.002);
  EXPECT_NEAR(at(75).tt, 0.005291, 0.002);
  EXPECT_NEAR(at(75).rt, 0.185185, 0.002);
  EXPECT_NEAR(at(100).rr, -5, 0.005);
  EXPECT_NEAR(at(100).tt, -0.857143, 0.005);
  EXPECT_LT(s.balance_error, 1e-9);
}

// Beam with Cowper shear .125319; independent 3D solution .125542. szz = M r / I = 7.404708.
TEST(BentTube, TipDeflectionAndStressFollowTheBeam) {
  const SectionMesh mesh = test::section_block(3, 80, [](double a, double b) {
    return Vec2{45 + 5 * a, 500 * (b + 0.1 * std::sin(2 * pi * (b - 0.5)) / pi)};
  });
  HarmonicSupports supports;
  supports.held = {{"bottom", {true, true, true}, {}}};
  HarmonicLoad load;
  load.name = "tip force";
  load.n = 1;
  const double shear = 1000 / (pi * (50 * 50 - 45 * 45));
  load.tractions = {{"top", [=](const Vec2 &, const Vec2 &) {
                       return HarmonicVector{shear, -shear, 0};
                     }}};
  const auto s = solve_one(mesh, supports, load);
  // Mean lateral deflection of the loaded end: work of the force over the force.
  EXPECT_NEAR(2 * s.strain_energy / 1000, 0.125542, 0.001 * 0.1255);
  EXPECT_NEAR(s.stress[test::node_at(mesh, 50, 250)].zz, -7.404708, 0.001 * 7.4);
}

}  // namespace
}  // namespace felloe
