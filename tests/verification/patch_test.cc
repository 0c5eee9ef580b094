// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that any linear displacement field is reproduced exactly on distorted cells, in both
// nodal frames, with any turning of the cells, and that rigid motions strain nothing.
#include <gtest/gtest.h>

#include "solver/elastic_model.h"
#include "tests/support/block_mesh.h"

namespace felloe {
namespace {

Material steel() {
  Material m;
  m.youngs_modulus = 210000;
  m.poissons_ratio = 0.3;
  m.density = 7.85e-6;
  return m;
}

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
  const ElasticModel model(mesh, {{Part::disc, steel()}}, frame);
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

}  // namespace
}  // namespace felloe
