// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that nodal forces carry exactly the force and moment of their tractions and body forces.
#include "solver/load_case.h"

#include <gtest/gtest.h>

#include "tests/support/block_mesh.h"

namespace felloe {
namespace {

void expect_vector(const Vec3 &value, const Vec3 &expected, double tolerance) {
  for (int i = 0; i < 3; ++i) EXPECT_NEAR(value[i], expected[i], tolerance);
}

Mesh brick(double lx, double ly, double lz) {
  test::Block block;
  block.n = {2, 3, 2};
  block.map = [=](const Vec3 &p) { return Vec3{lx * p[0], ly * p[1], lz * p[2]}; };
  return test::block_mesh(block);
}

// Pressure on a flat side: force = pressure times area, at the middle of the side.
TEST(NodalForces, PressureOnAFlatSideActsAtItsMiddle) {
  const Mesh mesh = brick(4, 6, 8);
  LoadCase load;
  load.tractions = {{"a+", [](const Vec3 &, const Vec3 &n) { return scale(-2.0, n); }}};
  const Resultant r = resultant(mesh, nodal_forces(mesh, load));
  expect_vector(r.force, {-96, 0, 0}, 1e-11);
  expect_vector(r.moment, cross({4, 3, 4}, {-96, 0, 0}), 1e-10);
}

// A quadratic side of one cell under uniform pressure: 1/36, 4/36, 16/36 of the force at corners,
// mid-sides and middle (tensor product of Simpson's weights).
TEST(NodalForces, FollowSimpsonsWeightsOnOneCell) {
  test::Block block;
  block.map = [](const Vec3 &p) { return scale(6.0, p); };
  const Mesh mesh = test::block_mesh(block);
  LoadCase load;
  load.tractions = {{"c-", [](const Vec3 &, const Vec3 &n) { return n; }}};
  const std::vector<Vec3> forces = nodal_forces(mesh, load);
  expect_vector(forces[mesh.cells[0][0]], {0, 0, -1}, 1e-12);
  expect_vector(forces[mesh.cells[0][1]], {0, 0, -4}, 1e-12);
  expect_vector(forces[mesh.cells[0][4]], {0, 0, -16}, 1e-12);
  expect_vector(forces[mesh.cells[0][13]], {0, 0, 0}, 1e-12);
}

// Hydrostatic law: uniform pressure on a closed surface has no resultant (divergence theorem);
// quadratic sides integrate it exactly, however the cells are curved or turned.
TEST(NodalForces, PressureOnAClosedSkinHasNoResultant) {
  test::Block block;
  block.n = {2, 2, 2};
  block.map = [](const Vec3 &p) {
    return Vec3{5 + p[0] + 0.2 * p[1] * p[2], p[1] + 0.1 * std::sin(3 * p[0]),
                p[2] - 0.2 * p[0] * p[1]};
  };
  block.sides.fill("skin");
  Mesh mesh = test::block_mesh(block);
  test::turn_cells(mesh);
  LoadCase load;
  load.tractions = {{"skin", [](const Vec3 &, const Vec3 &n) { return scale(-1.0, n); }}};
  const Resultant r = resultant(mesh, nodal_forces(mesh, load));
  // 4 x 4 points integrate the polynomial force exactly; the moment's degree is 5 in each
  // direction, exact too.
  expect_vector(r.force, {0, 0, 0}, 1e-13);
  expect_vector(r.moment, {0, 0, 0}, 1e-12);
}

// Centrifugal force of a brick off the axis: density w^2 r of the centre of mass times the volume.
TEST(NodalForces, BodyForceActsOnTheVolume) {
  const Mesh mesh = brick(2, 3, 4);
  LoadCase load;
  load.body_force = [](const Vec3 &x) { return Vec3{0.5 * x[0], 0.5 * x[1], 0}; };
  const Resultant r = resultant(mesh, nodal_forces(mesh, load));
  expect_vector(r.force, {0.5 * 1.0 * 24, 0.5 * 1.5 * 24, 0}, 1e-12);
}

}  // namespace
}  // namespace felloe
