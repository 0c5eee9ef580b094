// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that every wheel load has exactly the resultant that it promises, in 3D and on the
// section.
#include <gtest/gtest.h>

#include <cmath>

#include "mesher/error.h"
#include "solver/harmonic_loads.h"
#include "solver/load_kinds.h"
#include "tests/support/revolve.h"
#include "tests/support/rim_block.h"

namespace felloe {
namespace {

// Resultants are sums of a few thousand nodal forces: rounding is far below 1e-9 of the load.
constexpr double exact = 1e-9;

Resultant total(const Mesh &mesh, const LoadCase &load) {
  return resultant(mesh, nodal_forces(mesh, load));
}

/// Force of one entry of the load alone.
Vec3 part_of(const Mesh &mesh, const LoadCase &load, std::size_t entry) {
  LoadCase one;
  one.tractions = {load.tractions.at(entry)};
  return total(mesh, one).force;
}

TEST(RevolvedMesh, VolumeFollowsPappusAndCellsAreRightHanded) {
  const Mesh mesh = test::revolve(test::rectangle(50, 60, 0, 4, 2, 1), 48);
  LoadCase weight;
  weight.body_force = [](const Vec3 &) { return Vec3{0, 0, 1}; };
  const double volume = pi * (60 * 60 - 50 * 50) * 4;
  // Quadratic arcs of 7.5 degrees miss the circle by 1e-6 of the radius.
  EXPECT_NEAR(total(mesh, weight).force[2], volume, 1e-5 * volume);
}

TEST(BoltClamp, EveryBoltCarriesExactlyThePreload) {
  // A hub plate whose top faces between two rings serve as four seats of unlike shape.
  Mesh mesh = test::revolve(test::rectangle(30, 80, 0, 4, 5, 1), 24);
  WheelLayout layout;
  layout.bolts.resize(4);
  const std::vector<CellFace> top = mesh.surfaces.at("top");
  for (int k = 0; k < 4; ++k)
    for (int i = 0; i <= k; ++i)
      mesh.surfaces["bolt seat " + std::to_string(k + 1)].push_back(top[24 * i + 6 * k + i]);
  const LoadCase load = bolt_clamp(layout, mesh, 30000);
  ASSERT_EQ(load.tractions.size(), 4u);
  EXPECT_EQ(load.kind, "bolt clamp");
  for (int k = 0; k < 4; ++k) {
    const Vec3 force = part_of(mesh, load, k);
    EXPECT_NEAR(force[0], 0, exact * 30000);
    EXPECT_NEAR(force[1], 0, exact * 30000);
    EXPECT_NEAR(force[2], -30000, exact * 30000);
  }
  layout.bolts.resize(5);
  EXPECT_THROW(bolt_clamp(layout, mesh, 30000), Error);  // no fifth seat
}

class RimLoads : public testing::TestWithParam<bool> {
 protected:
  const SectionMesh section_ = test::rim_block(GetParam());
  const Mesh mesh_ = test::revolve(section_, 60);
  const WheelLayout layout_;
};
INSTANTIATE_TEST_SUITE_P(SymmetricAndNot, RimLoads, testing::Bool());

TEST_P(RimLoads, RadialLoadIsHalvedExactlyInEveryDirection) {
  const double load = 13569.95;
  for (const double direction : {0., 0.37, 2.9, -1.8}) {
    const LoadCase radial = radial_load(layout_, mesh_, load, 40, direction);
    ASSERT_EQ(radial.tractions.size(), 2u);
    for (int seat = 0; seat < 2; ++seat) {
      const Vec3 force = part_of(mesh_, radial, seat);
      EXPECT_NEAR(force[0], -load / 2 * std::cos(direction), exact * load);
      EXPECT_NEAR(force[1], -load / 2 * std::sin(direction), exact * load);
      EXPECT_NEAR(force[2], 0, exact * load);
    }
  }
}

TEST_P(RimLoads, InflationBalancesItselfExactly) {
  const double pressure = 0.25, tyre = 317.5;
  const LoadCase load = inflation(layout_, mesh_, pressure, tyre);
  const double push = pi * (tyre * tyre - 207.6 * 207.6) * pressure / 2;
  const Resultant sum = total(mesh_, load);
  for (int i = 0; i < 3; ++i) {
    EXPECT_NEAR(sum.force[i], 0, exact * push);
    EXPECT_NEAR(sum.moment[i], 0, exact * push * 200);
  }
  // Half-rule, 22662 N for p 0.25 MPa, a 317.5, r_f 207.6 mm; the published form per unit length is
  // (a^2 - r_f^2) p / (4 r_f) = 17.37 N/mm.
  EXPECT_NEAR(push, 22662, 1);
  EXPECT_NEAR(push / (2 * pi * 207.6), 17.37, 0.01);
  const std::size_t last = load.tractions.size() - 1;
  const double out = part_of(mesh_, load, last - 1)[2], in = part_of(mesh_, load, last)[2];
  EXPECT_NEAR((out - in) / 2, push, exact * push);
  const bool asymmetric = GetParam();
  if (asymmetric) {  // p pi (r1^2 - r2^2) = 446 N
    EXPECT_NEAR(std::abs(out + in), 0.25 * pi * (190.1 * 190.1 - 188.6 * 188.6), 1);
  } else {  // equal seats: the pressure leaves no rest
    EXPECT_NEAR(out, push, exact * push);
  }
}

TEST_P(RimLoads, InflationPressesOnlyBetweenTheBeads) {
  const LoadCase load = inflation(layout_, mesh_, 0.25, 0);
  ASSERT_EQ(load.tractions.size(), 1u);
  const Traction &t = load.tractions[0].second;
  const Vec3 outwards{1, 0, 0};
  EXPECT_DOUBLE_EQ(t({180, 0, 0}, outwards)[0], -0.25);
  EXPECT_DOUBLE_EQ(t({189, 0, 75.9}, outwards)[0], -0.25);
  EXPECT_DOUBLE_EQ(t({200, 0, 76.1}, outwards)[0], 0);
  EXPECT_THROW(inflation(layout_, mesh_, 0.25, 200), Error);  // tyre smaller than the flange
}

TEST_P(RimLoads, SectionLoadsHaveTheSameResultants) {
  const double load = 13569.95, pressure = 0.25;
  const auto harmonics = section_radial_load(section_, load, 40);
  ASSERT_EQ(harmonics.size(), 17u);
  EXPECT_NEAR(section_resultant(section_, harmonics[1]).force, -load, exact * load);
  const HarmonicLoad air = section_inflation(section_, pressure, 317.5);
  EXPECT_NEAR(section_resultant(section_, air).force, 0, exact * 22662);
  HarmonicLoad outboard;
  outboard.tractions = {air.tractions.at(air.tractions.size() - 2)};
  HarmonicLoad inboard;
  inboard.tractions = {air.tractions.back()};
  EXPECT_NEAR(
      (section_resultant(section_, outboard).force - section_resultant(section_, inboard).force) /
          2,
      pi * (317.5 * 317.5 - 207.6 * 207.6) * pressure / 2, exact * 22662);
}

TEST_P(RimLoads, SectionHarmonicsAddUpToTheArc) {
  // Moment about the y axis of the 3D load comes from the first harmonic alone.
  const double load = 10000;
  const LoadCase radial = radial_load(layout_, mesh_, load, 40, 0);
  const auto first = section_radial_load(section_, load, 40, 1).at(1);
  // Tilt (-z, z, r) turns about -y. The halves differ only by the scaling of each quadrature.
  EXPECT_NEAR(section_resultant(section_, first).moment, -total(mesh_, radial).moment[1],
              1e-3 * load * 76);
}

// Fourier integrals of the arc of 40 degrees: 4 phi0 / pi = 0.888889, first harmonic 0.848542
// (quadrature by hand), so that a radially acting load is 0.9546 of the plain formula.
TEST(ArcIntegral, FollowsTheClosedForm) {
  EXPECT_NEAR(arc_integral(0, 40), 0.888889, 1e-6);
  EXPECT_NEAR(arc_integral(1, 40), 0.848542, 1e-6);
  const double ratio[] = {0.9743, 0.9651, 0.9546, 0.9428};
  for (int i = 0; i < 4; ++i)
    EXPECT_NEAR(arc_integral(1, 30 + 5 * i) / arc_integral(0, 30 + 5 * i), ratio[i], 5e-5);
  for (const int n : {2, 3, 9}) {  // trapezoid sum of the definition
    double sum = 0;
    const double phi0 = 40 * pi / 180;
    for (int i = 0; i < 4000; ++i) {
      const double phi = phi0 * ((i + 0.5) / 2000 - 1);
      sum += std::cos(pi * phi / (2 * phi0)) * std::cos(n * phi) * phi0 / 2000;
    }
    EXPECT_NEAR(arc_integral(n, 40), sum, 1e-6);
  }
  EXPECT_NEAR(arc_integral(2, 45), pi / 4, 1e-12);  // n = k
  EXPECT_THROW(arc_integral(1, 0), Error);
}

// 6785 N a seat, seat 19.8 wide at r 190.1 mm, half angle 40 degrees: crest pressure 2.0279 MPa by
// the published formula, 2.1244 MPa when rescaled to equilibrium.
TEST(RadialLoad, CrestPressureIsTrueToEquilibrium) {
  SectionMesh section = test::rectangle(187, 190.1, 40, 59.8, 1, 1);
  section.edges["bead seat outboard"] = section.edges["outer"];
  SectionMesh other = test::rectangle(187, 190.1, -59.8, -40, 1, 1);
  other.edges["bead seat inboard"] = other.edges["outer"];
  test::append(section, other);
  const Mesh mesh = test::revolve(section, 90);
  const LoadCase load = radial_load({}, mesh, 2 * 6785, 40, 0);
  const Vec3 crest = load.tractions[0].second({190.1, 0, 50}, {1, 0, 0});
  EXPECT_NEAR(-crest[0], 2.1244, 1e-3);
  EXPECT_NEAR(6785 * pi / (4 * 19.8 * 190.1 * 40 * pi / 180), 2.0279, 1e-4);
  // On the section the series sums up to the same pressure.
  double series = 0;
  for (const HarmonicLoad &h : section_radial_load(section, 2 * 6785, 40, 60))
    series -= h.tractions[0].second({190.1, 50}, {1, 0})[0];
  EXPECT_NEAR(series, 2.1244, 2e-3);
}

// Membrane: -p R / t = -17.0 MPa for p 0.25 MPa, R 170, t 2.5 mm; a ring of finite thickness under
// outer pressure has the mean -p r_outer / t.
TEST(Inflation, HoopStressOfAThinRimFollowsTheMembrane) {
  SectionMesh section = test::rectangle(168.75, 171.25, -10, 10, 2, 4);
  section.edges["bead seat outboard"] = section.edges["bead seat inboard"] = section.edges["outer"];
  Material steel;
  steel.name = "steel";
  steel.youngs_modulus = 210000;
  steel.poissons_ratio = 0.3;
  HarmonicSupports supports;
  supports.held = {{"inner bottom", {false, false, true}, {}}};
  const auto solution = HarmonicModel(section, {{Part::disc, steel}})
                            .solve(supports, {section_inflation(section, 0.25, 0)})
                            .front();
  const double hoop = solution.stress[test::node_at(section, 170, 0)].tt;
  EXPECT_NEAR(hoop, -17.0, 0.01 * 17);
  EXPECT_NEAR(hoop, -0.25 * 171.25 / 2.5, 1e-3 * 17);
}

TEST(AdapterLoads, AreVectorsInTheWheelFrame) {
  const LoadCase moment = adapter_moment(2e6, pi / 6);
  EXPECT_NEAR(moment.adapter.moment[0], 2e6 * std::sqrt(3.) / 2, 1e-6);
  EXPECT_NEAR(moment.adapter.moment[1], 1e6, 1e-6);
  EXPECT_EQ(moment.adapter.moment[2], 0);
  EXPECT_EQ(adapter_force({1, 2, 3}).adapter.force[2], 3);
  EXPECT_EQ(press_fit(0.2).interference, 0.2);
}

}  // namespace
}  // namespace felloe
