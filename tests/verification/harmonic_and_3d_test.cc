// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that the harmonic model and the 3D model, which share no element, agree on bodies without
// holes: hub stiffness, stress, rim under inflation and radial load.
#include <gtest/gtest.h>

#include <cmath>

#include "mesher/wheel_mesh.h"
#include "solver/elastic_model.h"
#include "solver/harmonic_loads.h"
#include "solver/load_kinds.h"
#include "tests/support/reference_wheel.h"
#include "tests/support/revolve.h"
#include "tests/support/rim_block.h"
#include "tests/support/steel.h"

namespace felloe {
namespace {

/// A dished disc 4 mm thick from r = 40 to 170 mm, its border 45 mm below the hub.
SectionMesh dished_disc() {
  return test::section_block(24, 1, [](double a, double b) {
    const double dish = -22.5 * (1 - std::cos(pi * a));
    return Vec2{40 + 130 * a, dish + 4 * (b - 0.5)};
  });
}

constexpr int n_theta = 36;

/// The node at theta = 0 of the revolved mesh that stands for a section node.
int at_zero(int section_node) { return section_node * 2 * n_theta; }

/// Its angle is pi.
int at_half(int section_node) { return at_zero(section_node) + n_theta; }

// Fourier's parity, exact: half a turn further a moment's stress (n = 1) has the other sign, that
// of an axial force (n = 0) is the same, in the axes that turn along; there zr has changed its sign
// with the axes once more. What alternates on a wheel is the former, its mean the latter.
TEST(HarmonicAnd3D, HalfATurnChangesTheSignOfTheMomentsStressAlone) {
  const SectionMesh section = dished_disc();
  Supports supports;
  supports.held = {{"outer", {true, true, true}, {}}};
  supports.adapter_surface = "inner";
  LoadCase tilt = adapter_moment(1e6, -pi / 2), push = adapter_force({0, 0, 1e3});
  tilt.name = "tilt";
  push.name = "push";
  const auto solved = ElasticModel(test::revolve(section, n_theta), {{Part::disc, test::steel()}},
                                   NodalFrame::cylindrical)
                          .solve(supports, {tilt, push});
  for (const double r : {75., 105., 135.}) {
    const double a = (r - 40) / 130, z = -22.5 * (1 - std::cos(pi * a)) + 2;
    const int node = test::node_at(section, r, z);
    for (int n = 0; n < 2; ++n) {
      const Stress &here = solved[1 - n].stress[at_zero(node)];
      const Stress &there = solved[1 - n].stress[at_half(node)];
      const double sign = n == 1 ? -1 : 1;
      for (const int c : {0, 1, 2}) EXPECT_NEAR(there[c], sign * here[c], 1e-7 * von_mises(here));
      EXPECT_NEAR(there[5], -sign * here[5], 1e-7 * von_mises(here));
    }
  }
}

/// Both models use the same quadratic section; the 3D one adds quadratic cells of 10 degrees, whose
/// error for cos theta is of the order (0.17 / 2)^4.
TEST(HarmonicAnd3D, HubStiffnessAndStressOfADishedDiscAgree) {
  const SectionMesh section = dished_disc();
  const std::map<Part, Material> materials{{Part::disc, test::steel()}};
  HarmonicSupports held;
  held.held = {{"outer", {true, true, true}, {}}};
  held.adapter_edge = "inner";
  const auto two_d = HarmonicModel(section, materials)
                         .solve(held, {section_adapter_moment(1e6), section_axial_force(1e3),
                                       section_lateral_force(1e3)});

  Supports supports;
  supports.held = {{"outer", {true, true, true}, {}}};
  supports.adapter_surface = "inner";
  LoadCase tilt = adapter_moment(1e6, -pi / 2), push = adapter_force({0, 0, 1e3}),
           shift = adapter_force({1e3, 0, 0});
  tilt.name = "tilt";
  push.name = "push";
  shift.name = "shift";
  const auto three_d =
      ElasticModel(test::revolve(section, n_theta), materials, NodalFrame::cylindrical)
          .solve(supports, {tilt, push, shift});

  EXPECT_NEAR(two_d[0].adapter_rotation, -three_d[0].adapter_motion[4],
              1e-3 * two_d[0].adapter_rotation);
  EXPECT_NEAR(two_d[0].adapter_motion, three_d[0].adapter_motion[0],
              1e-3 * std::abs(two_d[0].adapter_motion));
  EXPECT_NEAR(two_d[1].adapter_motion, three_d[1].adapter_motion[2],
              1e-3 * two_d[1].adapter_motion);
  EXPECT_NEAR(two_d[2].adapter_motion, three_d[2].adapter_motion[0],
              1e-3 * two_d[2].adapter_motion);
  EXPECT_NEAR(two_d[2].adapter_rotation, -three_d[2].adapter_motion[4],
              1e-3 * std::abs(two_d[2].adapter_rotation));

  // Away from the clamped edges, on both sides; scale: the largest stress there. At theta = 0 the
  // 3D recovery extrapolates cos theta over cells of 10 degrees: about 1 %, less on finer meshes.
  for (int load = 0; load < 2; ++load) {
    double largest = 0;
    for (const double r : {75., 105., 135.})
      for (const double side : {-1., 1.}) {
        const double a = (r - 40) / 130, z = -22.5 * (1 - std::cos(pi * a)) + 2 * side;
        largest = std::max(largest, std::abs(two_d[load].stress[test::node_at(section, r, z)].rr));
      }
    for (const double r : {75., 105., 135.})
      for (const double side : {-1., 1.}) {
        const double a = (r - 40) / 130, z = -22.5 * (1 - std::cos(pi * a)) + 2 * side;
        const int node = test::node_at(section, r, z);
        const HarmonicStress &s = two_d[load].stress[node];
        const Stress &t = three_d[load].stress[at_zero(node)];
        EXPECT_NEAR(s.rr, t[0], 0.02 * largest);
        EXPECT_NEAR(s.tt, t[1], 0.02 * largest);
        EXPECT_NEAR(s.zz, t[2], 0.02 * largest);
        EXPECT_NEAR(s.zr, t[5], 0.02 * largest);
      }
  }
}

TEST(HarmonicAnd3D, RimUnderInflationAndRadialLoadAgrees) {
  const SectionMesh section = test::rim_block();
  const Mesh mesh = test::revolve(section, n_theta);
  const std::map<Part, Material> materials{{Part::rim, test::steel()}};
  const double load = 10000;
  std::vector<HarmonicLoad> loads = section_radial_load(section, load, 40, 24);
  loads.push_back(section_inflation(section, 0.25, 317.5));
  HarmonicSupports held;
  held.held = {{"flange inboard", {true, true, true}, {}}};
  const auto two_d = HarmonicModel(section, materials).solve(held, loads);

  Supports supports;
  supports.held = {{"flange inboard", {true, true, true}, {}}};
  const auto three_d =
      ElasticModel(mesh, materials, NodalFrame::cylindrical)
          .solve(supports, {radial_load({}, mesh, load, 40, 0), inflation({}, mesh, 0.25, 317.5)});

  // Under the load at theta = 0 the harmonics add up; the arc's series falls like n^-2 and is cut
  // at 24, the 3D arc is rescaled on its own quadrature: 1 %.
  const auto sum_at = [&](int node, int component) {
    double sum = 0;
    for (int n = 0; n <= 24; ++n) sum += two_d[n].displacement[node][component];
    return sum;
  };
  const int seat = test::node_at(section, 189.25, 66), well = test::node_at(section, 172.8, 0);
  const double radial = sum_at(seat, 0);
  EXPECT_LT(radial, 0);  // pressed inwards
  EXPECT_NEAR(three_d[0].displacement[at_zero(seat)][0], radial, 0.01 * std::abs(radial));
  EXPECT_NEAR(three_d[0].displacement[at_zero(well)][0], sum_at(well, 0), 0.01 * std::abs(radial));
  EXPECT_NEAR(three_d[0].displacement[at_zero(seat)][2], sum_at(seat, 2), 0.01 * std::abs(radial));

  const auto &air = two_d.back().displacement;
  const double size = std::abs(air[seat][0]) + std::abs(air[seat][2]);
  for (const int node : {seat, well})
    for (const int c : {0, 2})
      EXPECT_NEAR(three_d[1].displacement[at_zero(node)][c], air[node][c], 1e-3 * size);
}

// The two models of one wheel differ by the 3D cells' angle alone; asked: stiffness within 0.5 %.
TEST(HarmonicAnd3D, StiffnessOfTheReferenceWheelWithoutHolesAgrees) {
  const WheelLayout wheel = layout(reference_wheel_without_holes());
  MeshSize size = mesh_size(0.5);
  size.disc_layers = 1;
  const std::map<Part, Material> materials{
      {Part::disc, test::steel()}, {Part::rim, test::steel()}, {Part::weld, test::steel()}};
  HarmonicSupports held;
  held.held = {{"flange inboard", {true, true, true}, {}}};
  held.adapter_edge = "hub face";
  const auto two_d = HarmonicModel(section_mesh(wheel, size), materials)
                         .solve(held, {section_adapter_moment(1e6), section_axial_force(1e3),
                                       section_lateral_force(1e3)});
  Supports supports;
  supports.held = {{"flange inboard", {true, true, true}, {}}};
  supports.adapter_surface = "hub face";
  LoadCase tilt = adapter_moment(1e6, -pi / 2), push = adapter_force({0, 0, 1e3}),
           shift = adapter_force({1e3, 0, 0});
  push.name = "push";
  shift.name = "shift";
  Mesh mesh = wheel_mesh(wheel, size);
  mesh.symmetry = 1;  // one factor: many thin sectors would cost more here
  mesh.turned.clear();
  const auto three_d =
      ElasticModel(mesh, materials, NodalFrame::cylindrical).solve(supports, {tilt, push, shift});
  const double tilt_2d = two_d[0].adapter_rotation, push_2d = two_d[1].adapter_motion,
               shift_2d = two_d[2].adapter_motion;
  EXPECT_NEAR(-three_d[0].adapter_motion[4], tilt_2d, 2e-3 * tilt_2d);
  EXPECT_NEAR(three_d[1].adapter_motion[2], push_2d, 2e-3 * push_2d);
  EXPECT_NEAR(three_d[2].adapter_motion[0], shift_2d, 2e-3 * shift_2d);
}

}  // namespace
}  // namespace felloe
