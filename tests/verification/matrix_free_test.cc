// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that the solver without a matrix finds the solution of the direct solver.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "mesher/error.h"
#include "mesher/wheel_mesh.h"
#include "solver/load_kinds.h"
#include "solver/matrix_free_model.h"
#include "tests/support/block_mesh.h"
#include "tests/support/reference_wheel.h"
#include "tests/support/same_solution.h"
#include "tests/support/steel.h"

namespace felloe {
namespace {

using test::push;

const std::map<Part, Material> steel_parts = test::steel_parts();

/// The direct solver is the reference. The iteration ends at 1e-10 of the load; on thin bodies the
/// displacement is that much worse by their condition, still well below 1e-6.
void expect_same(const Mesh &mesh, NodalFrame frame, const Supports &supports,
                 const std::vector<LoadCase> &loads) {
  MatrixFreeSettings settings;
  settings.tolerance = 1e-10;
  const auto found = MatrixFreeModel(mesh, steel_parts, frame, settings).solve(supports, loads);
  const auto expected = ElasticModel(mesh, steel_parts, frame).solve(supports, loads);
  test::expect_same_solutions(found, expected, 1e-6);
  for (std::size_t l = 0; l < loads.size(); ++l)
    EXPECT_NEAR(norm(found[l].applied.force), norm(expected[l].applied.force),
                1e-9 * norm(expected[l].applied.force));
}

LoadCase tilt(const Vec3 &moment) {
  LoadCase load;
  load.name = "moment on the adapter";
  load.adapter.moment = moment;
  return load;
}

TEST(MatrixFree, FindsTheDirectSolutionOfAThinDisc) {
  const Mesh mesh = test::block_mesh(test::ring(30, 180, 0, 2, {12, 40, 1}));
  Supports supports;
  supports.held = {{"outside"}};
  supports.adapter_surface = "inside";
  expect_same(mesh, NodalFrame::cartesian, supports,
              {tilt({1e5, 0, 0}), push("top", {0, 0.01, 0.001})});
}

TEST(MatrixFree, FindsTheDirectSolutionOfThreeLayers) {
  const Mesh mesh = test::block_mesh(test::ring(30, 60, 0, 12, {5, 20, 3}));
  Supports supports;
  supports.held = {{"bottom", {false, false, true}}, {"inside", {true, true, false}}};
  expect_same(mesh, NodalFrame::cylindrical, supports, {push("outside", {1, 0.5, 0.2})});
}

TEST(MatrixFree, TakesCellsTurnedAnyWay) {
  Mesh mesh = test::block_mesh(test::ring(30, 60, 0, 10, {4, 12, 2}));
  test::turn_cells(mesh);
  Supports supports;
  supports.held = {{"inside"}};
  expect_same(mesh, NodalFrame::cartesian, supports, {push("outside", {1, 0.5, 0.2})});
}

TEST(MatrixFree, FollowsGivenDisplacements) {
  const Mesh mesh = test::block_mesh(test::ring(30, 60, 0, 4, {4, 16, 1}));
  Supports supports;
  supports.held = {{"inside"}, {"outside", {true, true, true}, [](const Vec3 &x) {
                                  return Vec3{0, 0, 1e-3 * x[0]};
                                }}};
  LoadCase none;
  none.name = "lifted edge";
  expect_same(mesh, NodalFrame::cartesian, supports, {none});
}

TEST(MatrixFree, FindsTheDirectSolutionOfAWheel) {
  const WheelLayout wheel = layout(reference_wheel());
  MeshSize size = mesh_size(0.5);
  size.disc_layers = 1;
  const Mesh mesh = wheel_mesh(wheel, size);
  Supports supports;
  supports.held = {{"bead seat outboard"}, {"bead seat inboard"}};
  supports.adapter_surface = "hub face";
  expect_same(mesh, NodalFrame::cylindrical, supports,
              {adapter_moment(1e6, 0.3), press_fit(0.05), inflation(wheel, mesh, 0.5, 300)});
}

TEST(MatrixFree, RefusesAFreeBody) {
  const Mesh mesh = test::block_mesh(test::ring(30, 60, 0, 4, {2, 8, 1}));
  const MatrixFreeModel model(mesh, steel_parts);
  EXPECT_THROW(model.solve({}, {push("outside", {1, 0, 0})}), Error);
}

TEST(MatrixFree, ResultsDoNotDependOnTheNumberOfThreads) {
  const Mesh mesh = test::block_mesh(test::ring(30, 60, 0, 4, {6, 24, 1}));
  Supports supports;
  supports.held = {{"inside"}};
  MatrixFreeSettings one, three;
  one.n_threads = 1;
  three.n_threads = 3;
  const std::vector<LoadCase> loads{push("outside", {0, 0, 1})};
  const auto a =
      MatrixFreeModel(mesh, steel_parts, NodalFrame::cartesian, one).solve(supports, loads);
  const auto b =
      MatrixFreeModel(mesh, steel_parts, NodalFrame::cartesian, three).solve(supports, loads);
  // Other sums, other rounding: both end at 1e-8.
  EXPECT_NEAR(a[0].strain_energy, b[0].strain_energy, 1e-7 * a[0].strain_energy);
}

}  // namespace
}  // namespace felloe
