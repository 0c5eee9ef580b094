// SPDX-License-Identifier: GPL-3.0-or-later
// Proves the elliptic membrane and the thick plate of the NAFEMS standard benchmarks (LE1, LE10).
#include <gtest/gtest.h>

#include "solver/elastic_model.h"
#include "tests/support/block_mesh.h"
#include "tests/support/steel.h"

namespace felloe {
namespace {

/// Quarter between the ellipses (2, 1) and (3.25, 2.75), lengths in m: stresses do not care.
test::Block quarter_ellipses(std::array<int, 3> n, double z_low, double z_high) {
  test::Block block;
  block.n = n;
  block.sides = {"inside", "outside", "on x axis", "on y axis", "bottom", "top"};
  block.map = [=](const Vec3 &p) {
    const double t = pi / 2 * p[1], f = p[0] * (1 + p[0]) / 2;  // finer at the inside
    return Vec3{(2 + 1.25 * f) * std::cos(t), (1 + 1.75 * f) * std::sin(t),
                z_low + (z_high - z_low) * p[2]};
  };
  return block;
}

// Target 92.7 MPa (The Standard NAFEMS Benchmarks, 1990); converged 92.658. 1 %.
TEST(Nafems, EllipticMembraneLE1) {
  const Mesh mesh = test::block_mesh(quarter_ellipses({8, 12, 1}, 0, 0.1));
  Supports supports;
  supports.held = {{"on y axis", {true, false, false}, {}},
                   {"on x axis", {false, true, false}, {}},
                   {"bottom", {false, false, true}, {}}};
  LoadCase load;
  load.name = "LE1";
  load.tractions = {{"outside", [](const Vec3 &, const Vec3 &n) { return scale(10, n); }}};
  const ElasticModel model(mesh, {{Part::disc, test::steel()}});
  const Solution s = model.solve(supports, {load}).front();
  EXPECT_NEAR(s.stress[test::node_at(mesh, {2, 0, 0})][1], 92.7, 0.01 * 92.7);
  EXPECT_NEAR(s.applied.force[0], 27.5 * 0.1, 1e-4 * 2.75);  // pressure times projected area
}

// Target -5.38 MPa (The Standard NAFEMS Benchmarks, 1990); converged -5.385. 2 %.
TEST(Nafems, ThickPlateLE10) {
  Mesh mesh = test::block_mesh(quarter_ellipses({8, 12, 4}, -0.3, 0.3));
  for (const int n : surface_nodes(mesh, "outside"))
    if (std::abs(mesh.nodes[n][2]) < 1e-9) mesh.lines["outside mid-plane"].push_back(n);
  Supports supports;
  supports.held = {{"on y axis", {true, false, false}, {}},
                   {"on x axis", {false, true, false}, {}},
                   {"outside", {true, true, false}, {}},
                   {"outside mid-plane", {false, false, true}, {}}};
  LoadCase load;
  load.name = "LE10";
  load.tractions = {{"top", [](const Vec3 &, const Vec3 &n) { return scale(-1, n); }}};
  const ElasticModel model(mesh, {{Part::disc, test::steel()}});
  const Solution s = model.solve(supports, {load}).front();
  EXPECT_NEAR(s.stress[test::node_at(mesh, {2, 0, 0.3})][1], -5.38, 0.02 * 5.38);
  EXPECT_NEAR(s.applied.force[2], -5.44870, 1e-3 * 5.4487);
}

}  // namespace
}  // namespace felloe
