// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that solving by sectors gives the whole matrix's result, for loads without any symmetry.
#include <gtest/gtest.h>

#include <cmath>

#include "solver/elastic_model.h"
#include "tests/support/block_mesh.h"

namespace felloe {
namespace {

using test::Block;

int nearest_node(const Mesh &mesh, const Vec3 &x) {
  int best = 0;
  double distance = 1e300;
  for (std::size_t n = 0; n < mesh.nodes.size(); ++n) {
    const double d = norm(subtract(mesh.nodes[n], x));
    if (d < distance) {
      distance = d;
      best = static_cast<int>(n);
    }
  }
  EXPECT_LT(distance, 1e-7);
  return best;
}

/// A dished ring whose rim and height wave N times round. Four cells a sector: with a phase of 0 a
/// mirror plane runs through the nodes at the angle 0, with pi / 2 through others; with 0.3 none.
Mesh wavy_disc(int n_sectors, double phase) {
  Block block;
  block.n = {3, n_sectors == 1 ? 8 : 4 * n_sectors, 1};
  block.sides = {"hub", "edge", "", "", "back", "front"};
  block.map = [n_sectors, phase](const Vec3 &u) -> Vec3 {
    const double theta = 2 * pi * u[1], wave = std::cos(n_sectors * theta + phase);
    const double r = 40 + u[0] * (50 + 4 * wave),
                 z = 12 * u[0] * (1 - u[0]) + 5 * u[2] + wave * u[0];
    return {r * std::cos(theta), r * std::sin(theta), z};
  };
  Mesh mesh = test::block_mesh(block);
  mesh.symmetry = n_sectors;
  if (n_sectors == 1) return mesh;
  const double turn = 2 * pi / n_sectors, c = std::cos(turn), s = std::sin(turn);
  for (const Vec3 &x : mesh.nodes)
    mesh.turned.push_back(nearest_node(mesh, {c * x[0] - s * x[1], s * x[0] + c * x[1], x[2]}));
  return mesh;
}

std::vector<LoadCase> uneven_loads() {
  LoadCase push;
  push.name = "push on one side";
  push.tractions.push_back({"front", [](const Vec3 &x, const Vec3 &n) {
                              return scale(x[0] > 20 ? -1 - 0.01 * x[1] : 0.0, n);
                            }});
  push.adapter.force = {300, -200, 500};
  LoadCase tilt;
  tilt.name = "tilt";
  tilt.adapter.moment = {2e4, 5e4, -1e4};
  LoadCase pull;
  pull.name = "pull";
  pull.body_force = [](const Vec3 &x) -> Vec3 { return {1e-3 * x[1], 2e-3, 1e-3 * x[0]}; };
  return {push, tilt, pull};
}

const Material steel{"steel", "", MaterialFamily::steel, 210000, 0.3, 7.85e-6, 0, 0, "", ""};

void expect_equal(const std::vector<Solution> &a, const std::vector<Solution> &b) {
  ASSERT_EQ(a.size(), b.size());
  for (std::size_t l = 0; l < a.size(); ++l) {
    double size = 0, worst = 0, stress_size = 0, worst_stress = 0;
    for (std::size_t n = 0; n < a[l].displacement.size(); ++n) {
      size = std::max(size, norm(b[l].displacement[n]));
      worst = std::max(worst, norm(subtract(a[l].displacement[n], b[l].displacement[n])));
      stress_size = std::max(stress_size, von_mises(b[l].stress[n]));
      worst_stress = std::max(worst_stress, von_mises(a[l].stress[n] - b[l].stress[n]));
    }
    EXPECT_LT(worst, 1e-8 * size) << a[l].load_case;
    EXPECT_LT(worst_stress, 1e-8 * stress_size) << a[l].load_case;
    for (int m = 0; m < 6; ++m)
      EXPECT_NEAR(a[l].adapter_motion[m], b[l].adapter_motion[m], 1e-8 * (size + 1e-6));
    EXPECT_NEAR(a[l].strain_energy, b[l].strain_energy, 1e-8 * b[l].strain_energy);
  }
}

struct Ring {
  int n_sectors;
  double phase;
  bool is_mirrored;  ///< solved by half sectors
};

class Sectors : public ::testing::TestWithParam<Ring> {};

TEST_P(Sectors, GiveTheWholeMatrixResultWithAFreeAdapter) {
  const Mesh mesh = wavy_disc(GetParam().n_sectors, GetParam().phase);
  Supports supports;
  supports.held.push_back({"edge", {true, true, true}, {}});
  supports.adapter_surface = "hub";
  const ElasticModel by_sectors(mesh, {{Part::disc, steel}}, NodalFrame::cylindrical);
  const ElasticModel whole(mesh, {{Part::disc, steel}}, NodalFrame::cylindrical, SolvePath::whole);
  const auto a = by_sectors.solve(supports, uneven_loads());
  const auto b = whole.solve(supports, uneven_loads());
  EXPECT_EQ(by_sectors.figures().sectors, GetParam().n_sectors);
  EXPECT_EQ(by_sectors.figures().mirrored, GetParam().is_mirrored);
  EXPECT_EQ(whole.figures().sectors, 1);
  EXPECT_NEAR(by_sectors.mass(), whole.mass(), 1e-10 * whole.mass());
  expect_equal(a, b);
}

TEST_P(Sectors, GiveTheWholeMatrixResultWithAHeldAdapter) {
  const Mesh mesh = wavy_disc(GetParam().n_sectors, GetParam().phase);
  Supports supports;
  supports.adapter_surface = "hub";
  supports.adapter_held = true;
  auto loads = uneven_loads();
  loads[1].tractions = loads[0].tractions;
  for (auto &load : loads) load.adapter = {};
  const ElasticModel by_sectors(mesh, {{Part::disc, steel}}, NodalFrame::cylindrical);
  const ElasticModel whole(mesh, {{Part::disc, steel}}, NodalFrame::cylindrical, SolvePath::whole);
  expect_equal(by_sectors.solve(supports, loads), whole.solve(supports, loads));
}

INSTANTIATE_TEST_SUITE_P(Counts, Sectors,
                         ::testing::Values(Ring{2, 0.3, false}, Ring{3, 0.3, false},
                                           Ring{4, 0.3, false}, Ring{5, 0.3, false},
                                           Ring{2, 0, true}, Ring{2, pi / 2, true},
                                           Ring{1, 0, true}, Ring{1, pi / 2, true},
                                           Ring{1, 0.3, false}, Ring{3, 0, true}, Ring{4, 0, true},
                                           Ring{5, 0, true}, Ring{6, pi / 2, true},
                                           Ring{3, pi / 2, true}, Ring{4, pi / 2, true}));

/// Pressure in a patch round x, turned and mirrored about the plane y = 0.
LoadCase patch(double angle, bool is_mirrored) {
  LoadCase load;
  load.name = "patch";
  const double c = std::cos(angle), s = std::sin(angle), side = is_mirrored ? -1 : 1;
  load.tractions.push_back({"front", [=](const Vec3 &x, const Vec3 &n) {
                              const double along = c * x[0] + s * x[1];
                              const double across = side * (c * x[1] - s * x[0]);
                              return scale(along > 30 ? -1 - 0.01 * across : 0.0, n);
                            }});
  return load;
}

TEST(Sectors, GiveEveryImageOfALoadItsOwnResult) {
  for (const double phase : {0.0, pi / 2}) {
    const Mesh mesh = wavy_disc(5, phase);
    Supports supports;
    supports.adapter_surface = "hub";
    supports.adapter_held = true;
    const std::vector<LoadCase> loads = {patch(0, false), patch(0.8 * pi, false), patch(0, true),
                                         patch(-0.4 * pi, true), patch(0.3, false)};
    const ElasticModel by_halves(mesh, {{Part::disc, steel}}, NodalFrame::cylindrical);
    const ElasticModel whole(mesh, {{Part::disc, steel}}, NodalFrame::cylindrical,
                             SolvePath::whole);
    const auto solutions = by_halves.solve(supports, loads);
    EXPECT_TRUE(by_halves.figures().mirrored);
    expect_equal(solutions, whole.solve(supports, loads));
  }
}

TEST(Sectors, GiveTheSameWithAndWithoutTheMirror) {
  const Mesh mesh = wavy_disc(5, 0);
  Supports supports;
  supports.held.push_back({"edge", {true, true, true}, {}});
  supports.adapter_surface = "hub";
  const ElasticModel by_halves(mesh, {{Part::disc, steel}}, NodalFrame::cylindrical);
  const ElasticModel by_sectors(mesh, {{Part::disc, steel}}, NodalFrame::cylindrical,
                                SolvePath::sectors);
  expect_equal(by_halves.solve(supports, uneven_loads()),
               by_sectors.solve(supports, uneven_loads()));
  EXPECT_FALSE(by_sectors.figures().mirrored);
}

TEST(Sectors, OfAnEvenLoadLeaveTheOddHalfAlone) {
  const Mesh mesh = wavy_disc(5, 0);
  Supports supports;
  supports.adapter_surface = "hub";
  supports.adapter_held = true;
  LoadCase even;
  even.name = "pressure";
  even.tractions.push_back({"front", [](const Vec3 &, const Vec3 &n) { return scale(-1, n); }});
  const ElasticModel model(mesh, {{Part::disc, steel}}, NodalFrame::cylindrical);
  const ElasticModel whole(mesh, {{Part::disc, steel}}, NodalFrame::cylindrical, SolvePath::whole);
  expect_equal(model.solve(supports, {even}), whole.solve(supports, {even}));
  const double of_even_load = model.figures().factor_entries;
  model.solve(supports, uneven_loads());
  EXPECT_GT(model.figures().factor_entries, 1.8 * of_even_load);
}

TEST(Sectors, AreNotMirroredForSupportsOnOneSide) {
  Mesh mesh = wavy_disc(5, 0);
  int node = nearest_node(mesh, mesh.nodes[mesh.cells[mesh.surfaces["edge"][0].cell][14]]);
  for (int k = 0; k < 5; ++k) {
    mesh.lines["some nodes"].push_back(node);
    node = mesh.turned[node];
  }
  Supports supports;
  supports.adapter_surface = "hub";
  supports.adapter_held = true;
  supports.held.push_back({"some nodes", {false, true, false}, {}});
  LoadCase load = uneven_loads()[2];
  const ElasticModel model(mesh, {{Part::disc, steel}}, NodalFrame::cylindrical);
  model.solve(supports, {load});
  EXPECT_EQ(model.figures().sectors, 5);
  EXPECT_FALSE(model.figures().mirrored);
}

TEST(Sectors, AreNotUsedForSupportsWithoutTheSymmetry) {
  Mesh mesh = wavy_disc(3, 0.3);
  for (const CellFace &f : mesh.surfaces["edge"])
    if (f.cell < 12) mesh.surfaces["some edge"].push_back(f);
  Supports supports;
  supports.held.push_back({"some edge", {true, true, true}, {}});
  LoadCase load = uneven_loads()[2];
  const ElasticModel model(mesh, {{Part::disc, steel}}, NodalFrame::cylindrical);
  model.solve(supports, {load});
  EXPECT_EQ(model.figures().sectors, 1);
}

}  // namespace
}  // namespace felloe
