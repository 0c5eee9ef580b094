// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that several processes together find what one finds alone. Runs under mpirun.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <stdexcept>
#include <string>

#include "mesher/error.h"
#include "mesher/wheel_mesh.h"
#include "solver/load_kinds.h"
#include "solver/matrix_free_model.h"
#include "solver/processes.h"
#include "tests/support/block_mesh.h"
#include "tests/support/reference_wheel.h"
#include "tests/support/same_solution.h"
#include "tests/support/steel.h"

namespace felloe {
namespace {

using test::push;

const Processes *processes = nullptr;
const std::map<Part, Material> steel_parts = test::steel_parts();

/// Both iterations end at 1e-12 of the load, which leaves 1e-8 of the displacement even where thin
/// bodies make it a thousand times worse.
void expect_same(const Mesh &mesh, NodalFrame frame, const Supports &supports,
                 const std::vector<LoadCase> &loads, int n_threads = 1) {
  MatrixFreeSettings together, alone;
  together.tolerance = alone.tolerance = 1e-12;
  together.n_threads = n_threads;
  alone.n_threads = 1;
  alone.all_processes = false;
  const MatrixFreeModel model(mesh, steel_parts, frame, together);
  const auto found = model.solve(supports, loads);
  EXPECT_EQ(model.figures().processes, processes->count());
  const auto expected = MatrixFreeModel(mesh, steel_parts, frame, alone).solve(supports, loads);
  test::expect_same_solutions(found, expected, 1e-8);
}

TEST(SeveralProcesses, AreAtWork) { EXPECT_GT(processes->count(), 1); }

std::string thrown_by(const std::function<void()> &body) {
  try {
    Processes::together(body);
  } catch (const Error &e) {
    return e.what();
  } catch (const std::exception &e) {
    return std::string("bug: ") + e.what();
  }
  return "nothing";
}

TEST(SeveralProcesses, AllThrowWhatOneThrows) {
  const bool last = Processes::number() == Processes::count() - 1;
  EXPECT_EQ(thrown_by([] {}), "nothing");
  EXPECT_EQ(thrown_by([&] {
              if (last) throw Error("disk: full");
            }),
            "disk: full");
  EXPECT_EQ(thrown_by([&] {
              if (last) throw std::logic_error("oops");
            }),
            "bug: oops");
  // What all know of already passes the outer calls.
  EXPECT_EQ(thrown_by([&] {
              Processes::together([&] {
                if (last) throw Error("inside");
              });
            }),
            "inside");
  // One is inside, the other has left because of its own failure.
  EXPECT_EQ(thrown_by([&] {
              if (last) throw Error("outside");
              Processes::together([] {});
            }),
            "outside");
}

TEST(SeveralProcesses, TakeWhatTheFirstHas) {
  const bool first = Processes::first();
  EXPECT_EQ(Processes::of_first(first ? 2.5 : 7.0), 2.5);
  EXPECT_EQ(Processes::of_first(std::string(first ? "a name" : "")), "a name");
  EXPECT_EQ(Processes::of_first(first ? std::vector<double>{1, 2} : std::vector<double>{}),
            (std::vector<double>{1, 2}));
}

TEST(SeveralProcesses, SolveADiscWithAdapterAsOneDoes) {
  const Mesh mesh = test::block_mesh(test::ring(30, 180, 0, 4, {10, 36, 2}));
  Supports supports;
  supports.held = {{"outside"}};
  supports.adapter_surface = "inside";
  LoadCase tilt;
  tilt.name = "moment on the adapter";
  tilt.adapter.moment = {1e5, 0, 0};
  expect_same(mesh, NodalFrame::cartesian, supports, {tilt, push("top", {0, 0.01, 0.001})});
}

TEST(SeveralProcesses, ShareABarOfLooseCells) {
  // Turned cells have no columns; the bar is cut along its length.
  Mesh mesh = test::block_mesh(test::Block{{12, 2, 2}, [](const Vec3 &u) {
                                             return Vec3{60 * u[0], 10 * u[1], 10 * u[2]};
                                           }});
  test::turn_cells(mesh);
  Supports supports;
  supports.held = {{"a-"}};
  expect_same(mesh, NodalFrame::cartesian, supports, {push("a+", {1, 0.5, 0.2})});
}

TEST(SeveralProcesses, MayHaveSeveralThreadsEach) {
  const Mesh mesh = test::block_mesh(test::ring(30, 60, 0, 4, {4, 24, 1}));
  Supports supports;
  supports.held = {{"inside"}};
  expect_same(mesh, NodalFrame::cylindrical, supports, {push("outside", {0, 0, 1})}, 2);
}

TEST(SeveralProcesses, SolveAWheelWithPressFitAsOneDoes) {
  const WheelLayout wheel = layout(reference_wheel());
  MeshSize size = mesh_size(0.5);
  size.disc_layers = 1;
  const Mesh mesh = wheel_mesh(wheel, size);
  Supports supports;
  supports.held = {{"bead seat outboard"}, {"bead seat inboard"}};
  supports.adapter_surface = "hub face";
  LoadCase load = press_fit(0.05);
  load.adapter = adapter_moment(1e6, 0.3).adapter;
  expect_same(mesh, NodalFrame::cylindrical, supports, {load});
}

TEST(SeveralProcesses, AllHearOfAPartThatIsFree) {
  // Two rings, only one is held.
  const Mesh mesh =
      test::block_mesh({test::ring(30, 60, 0, 4, {2, 12, 1}), [] {
                          test::Block other = test::ring(80, 90, 0, 4, {2, 12, 1});
                          other.sides = {"free inside", "free outside", "", "", "", ""};
                          return other;
                        }()});
  Supports supports;
  supports.held = {{"inside"}};
  EXPECT_THROW(
      MatrixFreeModel(mesh, steel_parts).solve(supports, {push("free outside", {0, 0, 1})}), Error);
}

}  // namespace
}  // namespace felloe

int main(int argc, char **argv) {
  const felloe::Processes all(argc, argv);
  felloe::processes = &all;
  testing::InitGoogleTest(&argc, argv);
  const int failed = RUN_ALL_TESTS();
  all.wait();
  return failed;
}
