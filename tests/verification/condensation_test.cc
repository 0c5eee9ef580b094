// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that the stiffness condensed on the hub face is that of single solves, by sectors or
// whole, with and without other supports.
#include <gtest/gtest.h>

#include <cmath>

#include "mesher/error.h"
#include "solver/elastic_model.h"
#include "tests/support/block_mesh.h"
#include "tests/support/steel.h"

namespace felloe {
namespace {

/// Ring r 30 ... 100, 10 thick, in n equal sectors, wavy so that no finer symmetry is there.
Mesh wavy_ring(int n_sectors) {
  const int n_theta = 4 * n_sectors;
  test::Block block;
  block.n = {4, n_theta, 1};
  block.sides = {"", "outside", "", "", "bottom", "top"};
  block.map = [n_sectors](const Vec3 &u) -> Vec3 {
    const double theta = 2 * pi * u[1], wave = std::cos(n_sectors * theta + 0.3);
    const double r = 30 + u[0] * (70 + 4 * wave);
    return {r * std::cos(theta), r * std::sin(theta), 10 * u[2] + u[0] * u[2] * wave};
  };
  Mesh mesh = test::block_mesh(block);
  mesh.symmetry = n_sectors;
  const double turn = 2 * pi / n_sectors, c = std::cos(turn), s = std::sin(turn);
  for (const Vec3 &x : mesh.nodes)
    mesh.turned.push_back(test::node_at(mesh, {c * x[0] - s * x[1], s * x[0] + c * x[1], x[2]}));
  for (const int n : surface_nodes(mesh, "bottom"))
    if (std::hypot(mesh.nodes[n][0], mesh.nodes[n][1]) < 60) mesh.lines["face"].push_back(n);
  return mesh;
}

std::vector<long> components(const std::vector<int> &nodes, bool across) {
  std::vector<long> all;
  for (const int n : nodes)
    for (int c = across ? 0 : 2; c < 3; ++c) all.push_back(3L * n + c);
  return all;
}

double largest(const std::vector<double> &v) {
  double size = 0;
  for (const double x : v) size = std::max(size, std::abs(x));
  return size;
}

class BothPaths : public ::testing::TestWithParam<std::tuple<int, bool>> {};
INSTANTIATE_TEST_SUITE_P(SectorsAndAcross, BothPaths,
                         ::testing::Combine(::testing::Values(2, 3, 5), ::testing::Bool()));

TEST_P(BothPaths, CondenseToTheSameStiffness) {
  const auto [n_sectors, across] = GetParam();
  const Mesh mesh = wavy_ring(n_sectors);
  const std::vector<long> on_face = components(line(mesh, "face"), across);
  const std::map<Part, Material> materials = {{Part::disc, test::steel()}};
  const ElasticModel by_sectors(mesh, materials, NodalFrame::cylindrical);
  const ElasticModel whole(mesh, materials, NodalFrame::cylindrical, SolvePath::whole);
  Supports outside;
  outside.held = {{"outside"}};
  Supports nothing;  // the face alone holds the body
  for (const Supports *supports : {&outside, &nothing}) {
    if (supports == &nothing && !across) continue;  // would slide away
    const std::vector<double> a = by_sectors.condensed(*supports, on_face);
    const std::vector<double> b = whole.condensed(*supports, on_face);
    EXPECT_EQ(by_sectors.figures().sectors, n_sectors);
    ASSERT_EQ(a.size(), b.size());
    const double size = largest(b);
    for (std::size_t i = 0; i < a.size(); ++i) ASSERT_NEAR(a[i], b[i], 1e-8 * size);
  }
}

TEST(Condensation, IsTheForceOfSingleSolves) {
  const Mesh mesh = wavy_ring(3);
  const std::vector<int> &face = line(mesh, "face");
  const ElasticModel model(mesh, {{Part::disc, test::steel()}}, NodalFrame::cylindrical);
  const std::vector<double> k = model.condensed({}, components(face, true));
  const std::size_t n = 3 * face.size();
  const double size = largest(k);
  Supports held;
  held.held = {{"face"}};
  for (const std::size_t of_node : {std::size_t{0}, face.size() / 2}) {
    const Vec3 &x = mesh.nodes[face[of_node]];
    const double r = std::hypot(x[0], x[1]);
    const Vec3 axes[] = {{x[0] / r, x[1] / r, 0}, {-x[1] / r, x[0] / r, 0}, {0, 0, 1}};
    for (int c = 0; c < 3; ++c) {
      LoadCase unit;
      unit.held_motion = {{face[of_node], axes[c]}};
      const NodeResponses one = model.solve_at(held, {unit}, face).front();
      for (std::size_t i = 0; i < face.size(); ++i) {
        const Vec3 &y = mesh.nodes[face[i]];
        const double s = std::hypot(y[0], y[1]);
        const Vec3 of[] = {{y[0] / s, y[1] / s, 0}, {-y[1] / s, y[0] / s, 0}, {0, 0, 1}};
        for (int d = 0; d < 3; ++d)
          ASSERT_NEAR(k[(3 * of_node + c) * n + 3 * i + d], dot(of[d], one.support_force[i]),
                      1e-8 * size);
      }
    }
  }
}

TEST(Condensation, RefusesWhatIsHeld) {
  const Mesh mesh = wavy_ring(3);
  const ElasticModel model(mesh, {{Part::disc, test::steel()}}, NodalFrame::cylindrical);
  Supports supports;
  supports.held = {{"face"}};
  EXPECT_THROW(model.condensed(supports, components(line(mesh, "face"), false)), Error);
  // normal components alone leave it free to slide
  EXPECT_THROW(model.condensed({}, components(line(mesh, "face"), false)), Error);
}

}  // namespace
}  // namespace felloe
