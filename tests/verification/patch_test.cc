// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that any linear displacement field is reproduced exactly on distorted cells, in both
// nodal frames, with any turning of the cells, and that rigid motions strain nothing.
#include <gtest/gtest.h>

#include "solver/elastic_model.h"
#include "tests/support/block_mesh.h"
#include "tests/support/steel.h"

namespace felloe {
namespace {

/// 3 x 3 x 3 cells with curved faces, away from the wheel axis.
Mesh distorted_mesh() {
  test::Block block;
  block.n = {3, 3, 3};
  block.map = [](const Vec3 &p) {
    const double bump = std::sin(pi * p[0]) * std::sin(pi * p[1]) * std::sin(pi * p[2]);
    return Vec3{20 + 10 * p[0] + 1.0 * bump + 0.7 * p[1] * p[2], 12 * p[1] - 1.5 * bump + p[0],
                8 * p[2] + 1.2 * bump - 0.5 * p[0] * p[1]};
  };
  block.sides.fill("skin");
  return test::block_mesh(block);
}

/// Constant gradient with every entry different, and a shift.
Vec3 linear_field(const Vec3 &x) {
  return {0.01 + 1e-3 * x[0] - 4e-4 * x[1] + 3e-4 * x[2],
          -0.02 + 2e-4 * x[0] - 7e-4 * x[1] + 5e-4 * x[2],
          0.005 - 6e-4 * x[0] + 1e-4 * x[1] + 9e-4 * x[2]};
}

/// Hooke's law by hand for the gradient above.
Stress linear_stress() {
  const double e = 210000, nu = 0.3, lambda = e * nu / ((1 + nu) * (1 - 2 * nu)),
               mu = e / (2 * (1 + nu));
  const double trace = 1e-3 - 7e-4 + 9e-4;
  return {{lambda * trace + 2 * mu * 1e-3, lambda * trace - 2 * mu * 7e-4,
           lambda * trace + 2 * mu * 9e-4, mu * (-4e-4 + 2e-4), mu * (5e-4 + 1e-4),
           mu * (-6e-4 + 3e-4)}};
}

// Irons' patch test: exact up to rounding, 1e-10 of the largest value.
void expect_exact(const Mesh &mesh, NodalFrame frame) {
  const ElasticModel model(mesh, {{Part::disc, test::steel()}}, frame);
  Supports supports;
  supports.held = {{"skin", {true, true, true}, linear_field}};
  LoadCase load;
  load.name = "stretch";
  const auto solutions = model.solve(supports, {load});
  ASSERT_EQ(solutions.size(), 1u);
  const Stress expected = linear_stress();
  for (std::size_t n = 0; n < mesh.nodes.size(); ++n) {
    const Vec3 u = linear_field(mesh.nodes[n]);
    for (int i = 0; i < 3; ++i) ASSERT_NEAR(solutions[0].displacement[n][i], u[i], 1e-10 * 0.05);
    for (int i = 0; i < 6; ++i) ASSERT_NEAR(solutions[0].stress[n][i], expected[i], 1e-10 * 500);
  }
  EXPECT_LT(solutions[0].residual, 1e-10);
  EXPECT_LT(solutions[0].balance_error, 1e-10);
}

TEST(PatchTest, LinearFieldIsExactInTheCartesianFrame) {
  expect_exact(distorted_mesh(), NodalFrame::cartesian);
}

TEST(PatchTest, LinearFieldIsExactInTheCylindricalFrame) {
  expect_exact(distorted_mesh(), NodalFrame::cylindrical);
}

TEST(PatchTest, CellsMayBeTurnedAgainstEachOther) {
  Mesh mesh = distorted_mesh();
  test::turn_cells(mesh);
  expect_exact(mesh, NodalFrame::cylindrical);
}

// A rigid motion of the skin moves the whole body with it: no stress, no energy.
TEST(PatchTest, RigidMotionStrainsNothing) {
  const Mesh mesh = distorted_mesh();
  const ElasticModel model(mesh, {{Part::disc, test::steel()}}, NodalFrame::cylindrical);
  const Vec3 shift{0.3, -0.2, 0.1}, turn{1e-3, 2e-3, -3e-3};
  const auto rigid = [&](const Vec3 &x) { return add(shift, cross(turn, x)); };
  Supports supports;
  supports.held = {{"skin", {true, true, true}, rigid}};
  const Solution s = model.solve(supports, {LoadCase{}}).front();
  for (std::size_t n = 0; n < mesh.nodes.size(); ++n) {
    const Vec3 u = rigid(mesh.nodes[n]);
    for (int i = 0; i < 3; ++i) ASSERT_NEAR(s.displacement[n][i], u[i], 1e-12);
    // 1e-9 of the stress that a strain of the motion's size would have
    for (int i = 0; i < 6; ++i) ASSERT_NEAR(s.stress[n][i], 0, 1e-9 * 210000 * 0.01);
  }
  EXPECT_NEAR(s.strain_energy, 0, 1e-9);
}

// Newton and Clapeyron: reactions balance the loads, energy is half the work (1e-9, rounding).
TEST(PatchTest, ReactionsAndEnergyFollowTheLoads) {
  test::Block block;
  block.n = {3, 2, 2};
  block.map = [](const Vec3 &p) {
    return Vec3{30 * p[0], 10 * p[1] + 2 * p[0], 8 * p[2] + std::sin(p[0])};
  };
  const Mesh mesh = test::block_mesh(block);
  const ElasticModel model(mesh, {{Part::disc, test::steel()}});
  Supports supports;
  supports.held = {{"a-"}};
  LoadCase load;
  load.name = "mixed";
  load.tractions = {{"a+",
                     [](const Vec3 &x, const Vec3 &) {
                       return Vec3{5, x[2], -2};
                     }},
                    {"c+", [](const Vec3 &, const Vec3 &n) { return scale(-3.0, n); }}};
  load.body_force = [](const Vec3 &x) { return Vec3{0.01 * x[0], 0, -0.02}; };
  const Solution s = model.solve(supports, {load}).front();
  const std::vector<Vec3> forces = nodal_forces(mesh, load);
  const Resultant applied = resultant(mesh, forces);
  double work = 0;
  for (std::size_t n = 0; n < forces.size(); ++n) work += dot(forces[n], s.displacement[n]);
  EXPECT_NEAR(s.strain_energy, 0.5 * work, 1e-9 * s.strain_energy);
  EXPECT_GT(s.strain_energy, 0);
  for (int i = 0; i < 3; ++i) {
    EXPECT_NEAR(s.reaction.force[i], -applied.force[i], 1e-9 * norm(applied.force));
    EXPECT_NEAR(s.reaction.moment[i], -applied.moment[i], 1e-9 * norm(applied.moment));
    EXPECT_NEAR(s.applied.force[i], applied.force[i], 1e-12 * norm(applied.force));
  }
}

// density times the exact volume of a ring; the quadratic sides miss the circle by 1e-6.
TEST(ElasticModel, MassIsDensityTimesVolume) {
  const Mesh mesh = test::block_mesh(test::ring(50, 100, 0, 10, {1, 32, 1}));
  const ElasticModel model(mesh, {{Part::disc, test::steel()}});
  const double expected = 7.85e-6 * pi * (100 * 100 - 50 * 50) * 10;
  EXPECT_NEAR(model.mass(), expected, 1e-5 * expected);
}

}  // namespace
}  // namespace felloe
