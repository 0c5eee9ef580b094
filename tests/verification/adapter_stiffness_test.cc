// SPDX-License-Identifier: GPL-3.0-or-later
// Proves the 6 x 6 stiffness at the hub adapter against beam theory and the single loads.
#include "solver/adapter_stiffness.h"

#include <gtest/gtest.h>

#include <cmath>

#include "mesher/error.h"
#include "tests/support/block_mesh.h"
#include "tests/support/steel.h"

namespace felloe {
namespace {

/// Tube 45/50 from its clamp at z = -500 to the adapter at z = 0; nu = 0, so that neither end
/// hinders the section.
struct Tube {
  static constexpr double ri = 45, ro = 50, length = 500, e = 210000, g = 105000;
  static constexpr double area = pi * (ro * ro - ri * ri);
  static constexpr double inertia = pi / 4 * (ro * ro * ro * ro - ri * ri * ri * ri);

  static AdapterStiffness stiffness() {
    const Mesh mesh = test::block_mesh(test::ring(ri, ro, -length, 0, {1, 16, 10}));
    const ElasticModel model(mesh, {{Part::disc, test::steel(e, 0)}}, NodalFrame::cylindrical);
    Supports supports;
    supports.held = {{"bottom"}};
    supports.adapter_surface = "top";
    return adapter_stiffness(model, supports);
  }
};

// Beam theory (Timoshenko, Strength of Materials): L / E A, L / E I, L^2 / 2 E I and L / G J are
// exact for pure tension, bending and torsion; 1e-4 for the quadratic circle of 16 cells.
TEST(TubeStiffness, FollowsBeamTheory) {
  const Matrix6 c = Tube::stiffness().compliance;
  const double l = Tube::length, ei = Tube::e * Tube::inertia;
  const auto expect = [&](int i, int j, double value) {
    EXPECT_NEAR(c[i][j], value, 1e-4 * std::abs(value)) << i << " " << j;
  };
  expect(2, 2, l / (Tube::e * Tube::area));
  expect(3, 3, l / ei);
  expect(4, 4, l / ei);
  expect(5, 5, l / (Tube::g * 2 * Tube::inertia));
  expect(0, 4, l * l / (2 * ei));   // a force along x turns about y
  expect(1, 3, -l * l / (2 * ei));  // a force along y turns about -x
  // Bending and Cowper's shear of a hollow circle (J. Appl. Mech. 33, 1966): k = 6 (1 + m^2)^2 /
  // (7 (1 + m^2)^2 + 20 m^2) for nu = 0, m = 0.9. 0.3 % for the ends, which stay plane.
  const double m2 = 0.81, k = 6 * std::pow(1 + m2, 2) / (7 * std::pow(1 + m2, 2) + 20 * m2);
  const double tip = l * l * l / (3 * ei) + l / (k * Tube::g * Tube::area);
  EXPECT_NEAR(c[0][0], tip, 0.003 * tip);
  EXPECT_NEAR(c[1][1], tip, 0.003 * tip);
}

TEST(TubeStiffness, IsSymmetricAndTheInverseOfItsCompliance) {
  const AdapterStiffness a = Tube::stiffness();
  for (int i = 0; i < 6; ++i)
    for (int j = 0; j < 6; ++j) {
      EXPECT_EQ(a.stiffness[i][j], a.stiffness[j][i]);
      double product = 0;
      for (int k = 0; k < 6; ++k) product += a.stiffness[i][k] * a.compliance[k][j];
      // Units of row i over those of column j: forces and moments differ by a length.
      const double size = std::sqrt(a.stiffness[i][i] / a.stiffness[j][j]);
      EXPECT_NEAR(product, i == j ? 1 : 0, 1e-8 * size) << i << " " << j;
    }
  // With every other motion blocked a beam is four times as stiff in bending: 4 E I / L against
  // E I / L, less by shear.
  EXPECT_GT(a.stiffness[3][3] * a.compliance[3][3], 3);
}

// Disc 50/200 x 10, rim face clamped: tilt stiffness 4.70086e8 N mm/rad = 8204.6 N m/deg by own
// three-dimensional harmonic elements of high order; 0.5 % for the singular edges on this mesh.
TEST(DiscStiffness, SingleLoadsGiveTheSameFigures) {
  test::Block block = test::ring(50, 200, -5, 5, {16, 16, 2});
  block.map = [](const Vec3 &p) {
    return revolved({50 * std::pow(4, p[0]), -5 + 10 * p[2]}, 2 * pi * p[1]);
  };
  const ElasticModel model(test::block_mesh(block), {{Part::disc, test::steel()}},
                           NodalFrame::cylindrical);
  Supports supports;
  supports.held = {{"outside"}};
  supports.adapter_surface = "inside";
  const AdapterStiffness a = adapter_stiffness(model, supports);
  EXPECT_NEAR(a.tilt_Nm_per_deg(), 8204.6, 0.005 * 8204.6);

  LoadCase tilt, push;
  tilt.name = "tilt";
  tilt.adapter.moment = {1e6, 0, 0};
  push.name = "push";
  push.adapter.force = {3e4, 0, 1e4};
  const auto s = model.solve(supports, {tilt, push});
  const double per_degree = 1e-3 * 1e6 / (s[0].adapter_motion[3] * 180 / pi);
  EXPECT_NEAR(a.tilt_Nm_per_deg(), per_degree, 1e-9 * per_degree);
  EXPECT_NEAR(a.axial_N_per_mm(), 1e4 / s[1].adapter_motion[2], 1e-9 * a.axial_N_per_mm());
  EXPECT_NEAR(a.radial_N_per_mm(), 3e4 / s[1].adapter_motion[0], 1e-9 * a.radial_N_per_mm());
  // A disc in its own plane: torsion and tilt of equal axes, nothing coupled by its mirror planes.
  EXPECT_GT(a.torsion_Nm_per_deg(), a.tilt_Nm_per_deg());
  EXPECT_LT(std::abs(a.compliance[0][4]),
            1e-8 * std::sqrt(a.compliance[0][0] * a.compliance[4][4]));
}

TEST(AdapterStiffness, RefusesMotionsWithoutSymmetry) {
  std::vector<std::array<double, 6>> motions(6);
  for (int i = 0; i < 6; ++i) motions[i][i] = 2;
  EXPECT_NEAR(adapter_stiffness(motions, 1, 1).stiffness[5][5], 0.5, 1e-15);
  motions[1][0] = 1e-6;
  try {
    adapter_stiffness(motions, 1, 1);
    FAIL();
  } catch (const Error &e) {
    EXPECT_NE(std::string(e.what()).find("differs from its mirror image"), std::string::npos);
  }
}

}  // namespace
}  // namespace felloe
