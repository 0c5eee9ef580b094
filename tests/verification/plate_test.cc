// SPDX-License-Identifier: GPL-3.0-or-later
// Proves thin bending with one layer of cells: annular plates of Roark's tables.
#include <gtest/gtest.h>

#include "solver/elastic_model.h"
#include "tests/support/block_mesh.h"
#include "tests/support/steel.h"

namespace felloe {
namespace {

struct Plate {
  double a, b, t, load;
  double stiffness() const { return 210000 * t * t * t / (12 * (1 - 0.09)); }
};

/// Quarter plate under uniform pressure on the top, in the cylindrical frame.
Solution pressed(const Plate &p, Supports supports, Mesh &mesh) {
  test::Block block = test::ring(p.b, p.a, -p.t / 2, p.t / 2, {24, 6, 1}, pi / 2);
  block.map = [&](const Vec3 &x) {
    return revolved({p.b * std::pow(p.a / p.b, x[0]), p.t * (x[2] - 0.5)}, pi / 2 * x[1]);
  };
  mesh = test::block_mesh(block);
  for (const int n : surface_nodes(mesh, "outside"))
    if (std::abs(mesh.nodes[n][2]) < 1e-9) mesh.lines["outside mid-plane"].push_back(n);
  supports.held.push_back({"start", {false, true, false}, {}});
  supports.held.push_back({"end", {false, true, false}, {}});
  const ElasticModel model(mesh, {{Part::disc, test::steel()}}, NodalFrame::cylindrical);
  LoadCase load;
  load.name = "pressure";
  load.tractions = {{"top", [&](const Vec3 &, const Vec3 &n) { return scale(-p.load, n); }}};
  return model.solve(supports, {load}).front();
}

constexpr Plate thin{200, 60, 2, 0.01};  // b / a = 0.3, a / t = 100

// Outer edge simply supported, inner edge guided: y_b = -0.0314 q a^4 / D, M_rb = 0.2185 q a^2
// (Roark's Formulas for Stress and Strain, table 11.2, case 2b; digits of our own solution of the
// plate equation: 0.031403, 0.21847). 1 % for the finite thickness and the mesh.
TEST(AnnularPlate, SimplySupportedOutsideGuidedInside) {
  Supports supports;
  supports.held = {{"outside mid-plane", {false, false, true}, {}},
                   {"inside", {true, false, false}, {}}};
  Mesh mesh;
  const Solution s = pressed(thin, supports, mesh);
  const double q = thin.load, a = thin.a, t = thin.t;
  const double deflection = -0.031403 * q * a * a * a * a / thin.stiffness();
  EXPECT_NEAR(s.displacement[test::node_at(mesh, {60, 0, 0})][2], deflection,
              0.01 * std::abs(deflection));
  const double bending = 6 * 0.21847 * q * a * a / (t * t);
  EXPECT_NEAR(s.stress[test::node_at(mesh, {60, 0, -1})][0], bending, 0.01 * bending);
  EXPECT_NEAR(s.stress[test::node_at(mesh, {60, 0, 1})][0], -bending, 0.01 * bending);
}

// Outer edge fixed, inner edge free: y_b = -0.013162 q a^4 / D, M_ra = -0.11351 q a^2 (same table,
// case 2e). The moment is read at the clamp, where three-dimensional stress is singular: only the
// deflection is compared.
TEST(AnnularPlate, FixedOutsideFreeInside) {
  Supports supports;
  supports.held = {{"outside"}};
  Mesh mesh;
  const Solution s = pressed(thin, supports, mesh);
  const double a = thin.a;
  const double deflection = -0.013162 * thin.load * a * a * a * a / thin.stiffness();
  EXPECT_NEAR(s.displacement[test::node_at(mesh, {60, 0, 0})][2], deflection,
              0.01 * std::abs(deflection));
}

}  // namespace
}  // namespace felloe
