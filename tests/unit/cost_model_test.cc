// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that the solver is chosen by what is free and what is faster, and that the reason is said.
#include "solver/cost_model.h"

#include <gtest/gtest.h>

#include "mesher/wheel_mesh.h"
#include "tests/support/reference_wheel.h"

namespace felloe {
namespace {

constexpr double plenty = 1e15;

/// A wheel of a million unknowns without any symmetry.
SolveTask whole_wheel(int n_loads) {
  SolveTask t;
  t.dofs = 1000000;
  t.slenderness = 6;
  t.n_loads = n_loads;
  t.n_threads = 2;
  return t;
}

TEST(CostModel, FewLoadsOnALargeWholeGoWithoutAMatrixAndManyLoadsDirectly) {
  EXPECT_TRUE(choose_solver(whole_wheel(1), SolverChoice::automatic, plenty).matrix_free);
  EXPECT_FALSE(choose_solver(whole_wheel(100), SolverChoice::automatic, plenty).matrix_free);
}

TEST(CostModel, TheOneThatFitsIsTaken) {
  const SolveTask task = whole_wheel(20);
  const double direct = direct_cost(task).bytes, iterated = matrix_free_cost(task).bytes;
  ASSERT_LT(iterated, direct / 2);
  const ChosenSolver c = choose_solver(task, SolverChoice::automatic, direct / 1.5);
  EXPECT_TRUE(c.matrix_free);
  EXPECT_NE(c.reason.find("does not fit"), std::string::npos) << c.reason;
  EXPECT_EQ(c.cost().bytes, iterated);
}

TEST(CostModel, WhenNeitherFitsTheSmallerOneIsTried) {
  const ChosenSolver c = choose_solver(whole_wheel(20), SolverChoice::automatic, 1);
  EXPECT_TRUE(c.matrix_free);
  EXPECT_NE(c.reason.find("neither fits"), std::string::npos) << c.reason;
}

TEST(CostModel, AskingForOneSettlesIt) {
  for (const bool free : {false, true}) {
    const auto wanted = free ? SolverChoice::matrix_free : SolverChoice::direct;
    const ChosenSolver c = choose_solver(whole_wheel(20), wanted, 1);
    EXPECT_EQ(c.matrix_free, free);
    EXPECT_EQ(c.reason, "asked for");
  }
}

TEST(CostModel, RepetitionHelpsTheDirectSolverAndProcessesTheOther) {
  SolveTask whole = whole_wheel(20), wedge = whole, sectors = whole, shared = whole;
  sectors.sectors = wedge.sectors = 5;
  sectors.cut_dofs = wedge.cut_dofs = 4000;
  wedge.mirrored = true;
  shared.n_processes = 8;
  EXPECT_LT(direct_cost(wedge).seconds, direct_cost(sectors).seconds);
  EXPECT_LT(direct_cost(sectors).seconds, direct_cost(whole).seconds);
  EXPECT_LT(direct_cost(wedge).bytes, direct_cost(sectors).bytes);
  EXPECT_LT(direct_cost(sectors).bytes, direct_cost(whole).bytes);
  EXPECT_LT(matrix_free_cost(shared).seconds, matrix_free_cost(whole).seconds);
  EXPECT_EQ(direct_cost(shared).seconds, direct_cost(whole).seconds);
}

// Loads that are their own mirror images need the even part of a mirrored sector alone.
TEST(CostModel, SymmetricLoadsSpareHalfOfTheElimination) {
  SolveTask t = whole_wheel(1);
  t.sectors = 5;
  t.cut_dofs = 4000;
  t.mirrored = true;
  SolveTask symmetric = t;
  symmetric.n_symmetric = 1;
  EXPECT_LT(direct_cost(symmetric).seconds, direct_cost(t).seconds);
  EXPECT_GT(direct_cost(symmetric).seconds, 0.5 * direct_cost(t).seconds);
  t.mirrored = symmetric.mirrored = false;
  EXPECT_EQ(direct_cost(symmetric).seconds, direct_cost(t).seconds);
}

// The demo wheel's solves on the machine that the constants come from (see cost_model.cc): 24 loads
// of three sets of supports took 5 s at least where little ran beside them, 6.5 s beside other
// work.
TEST(CostModel, AgreesWithTheDemoWheel) {
  SolveTask t;
  t.dofs = 690855;
  t.sectors = 5;
  t.mirrored = true;
  t.cut_dofs = 3798;
  t.slenderness = 7.19;
  t.n_supports = 3;
  t.n_symmetric = 1;
  t.n_loads = 24;
  t.n_threads = 2;
  EXPECT_GT(direct_cost(t).seconds, 5 / 1.4);
  EXPECT_LT(direct_cost(t).seconds, 5 * 1.4);
  EXPECT_NEAR(1e-9 * direct_cost(t).bytes, 1.55, 0.15 * 1.55);
}

// 5 bolts and 10 vents in phase: five mirrored sectors (mesh_size, counts of the wheel).
TEST(SolveTask, TellsTheSymmetryAndTheShapeOfCells) {
  const WheelLayout wheel = layout(reference_wheel());
  const Mesh mesh = wheel_mesh(wheel, mesh_size(0.5));
  const SolveTask task = solve_task(mesh);
  EXPECT_EQ(task.dofs, 3 * static_cast<long>(mesh.nodes.size()));
  EXPECT_EQ(task.sectors, 5);
  EXPECT_TRUE(task.mirrored);
  EXPECT_GT(task.cut_dofs, 0);
  // long cells over a thin sheet: 40 divisions and more round a rim of 2.5 mm
  EXPECT_GT(task.slenderness, 5);
  EXPECT_LT(task.slenderness, 30);
}

}  // namespace
}  // namespace felloe
