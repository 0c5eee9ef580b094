// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that the rigid hub adapter moves as one body, takes forces and moments about the origin,
// and obeys beam and plate theory.
#include <gtest/gtest.h>

#include "mesher/error.h"
#include "solver/elastic_model.h"
#include "tests/support/block_mesh.h"
#include "tests/support/steel.h"

namespace felloe {
namespace {

/// Cantilever along z from z = 0 to 200, 10 wide in x, 20 high in y, centre line x = 60, y = 0.
Mesh beam_mesh() {
  test::Block block;
  block.n = {1, 2, 10};
  block.map = [](const Vec3 &p) { return Vec3{55 + 10 * p[0], -10 + 20 * p[1], 200 * p[2]}; };
  return test::block_mesh(block);
}

Supports clamped_with_adapter() {
  Supports supports;
  supports.held = {{"c-"}};
  supports.adapter_surface = "c+";
  return supports;
}

LoadCase adapter_load(const Vec3 &force, const Vec3 &moment) {
  LoadCase load;
  load.name = "on the adapter";
  load.adapter = {force, moment};
  return load;
}

// The same motion prescribed on the same surface gives the same body, and the reaction is the
// adapter's load: two ways through the program, equal up to rounding.
TEST(Adapter, EqualsThePrescribedMotion) {
  const Mesh mesh = beam_mesh();
  for (const NodalFrame frame : {NodalFrame::cartesian, NodalFrame::cylindrical}) {
    const ElasticModel model(mesh, {{Part::disc, test::steel()}}, frame);
    const LoadCase load = adapter_load({30, -100, 2000}, {5000, 8000, -3000});
    const Solution s = model.solve(clamped_with_adapter(), {load}).front();
    const auto &m = s.adapter_motion;
    Supports prescribed;
    prescribed.held = {{"c-"}, {"c+", {true, true, true}, [&](const Vec3 &x) {
                                  return add({m[0], m[1], m[2]}, cross({m[3], m[4], m[5]}, x));
                                }}};
    const Solution t = model.solve(prescribed, {LoadCase{}}).front();
    for (std::size_t n = 0; n < mesh.nodes.size(); ++n)
      for (int i = 0; i < 3; ++i)
        ASSERT_NEAR(s.displacement[n][i], t.displacement[n][i],
                    1e-9 * norm(s.displacement[n]) + 1e-12);
    EXPECT_NEAR(s.strain_energy, t.strain_energy, 1e-8 * t.strain_energy);
    EXPECT_NEAR(s.reaction.force[1], 100, 1e-6);
    EXPECT_NEAR(s.reaction.moment[2], 3000, 1e-4);
  }
}

// Timoshenko's cantilever, P L^3 / 3 E I + 6/5 P L / G A = 0.190476 + 0.001143 mm (Timoshenko,
// Strength of Materials). nu = 0, so that neither the clamp nor the rigid end hinders the section;
// 0.2 % for the warping that both prevent.
TEST(Adapter, CantileverBendsLikeABeam) {
  const Mesh mesh = beam_mesh();
  const ElasticModel model(mesh, {{Part::disc, test::steel(210000, 0)}});
  const Vec3 force{0, 100, 0}, at{60, 0, 200};
  const Solution s =
      model.solve(clamped_with_adapter(), {adapter_load(force, cross(at, force))}).front();
  EXPECT_NEAR(s.displacement[test::node_at(mesh, at)][1], 0.191619, 0.002 * 0.191619);
  const Stress middle = s.stress[test::node_at(mesh, {60, 10, 100})];
  EXPECT_NEAR(middle[2], -6 * 100 * 100 / (10 * 400.0), 1e-3 * 15);
}

// Disc 50/200 x 10, rigid hub tilted by a moment, rim face clamped: tilt stiffness 4.70086e8
// N mm/rad by converged 3D harmonic elements of high order (own calculation), 0.980 of thin plate
// theory; 0.5 % for the singular edges on this mesh.
TEST(Adapter, HubTiltOfAClampedDisc) {
  test::Block block = test::ring(50, 200, -5, 5, {16, 16, 2});
  block.map = [](const Vec3 &p) {
    return revolved({50 * std::pow(4, p[0]), -5 + 10 * p[2]}, 2 * pi * p[1]);
  };
  const Mesh mesh = test::block_mesh(block);
  const ElasticModel model(mesh, {{Part::disc, test::steel()}}, NodalFrame::cylindrical);
  Supports supports;
  supports.held = {{"outside"}};
  supports.adapter_surface = "inside";
  const auto s = model.solve(
      supports, {adapter_load({0, 0, 0}, {1e6, 0, 0}), adapter_load({0, 0, 0}, {0, 1e6, 0})});
  EXPECT_NEAR(1e6 / s[0].adapter_motion[3], 4.70086e8, 0.005 * 4.70086e8);
  EXPECT_NEAR(s[1].adapter_motion[4], s[0].adapter_motion[3], 1e-8 * s[0].adapter_motion[3]);
}

TEST(Adapter, HeldAdapterIsAClamp) {
  const Mesh mesh = beam_mesh();
  const ElasticModel model(mesh, {{Part::disc, test::steel()}});
  LoadCase load;
  load.name = "end load";
  load.tractions = {{"c+", [](const Vec3 &, const Vec3 &) { return Vec3{0, 1, 0}; }}};
  Supports clamp, adapter;
  clamp.held = {{"c-"}};
  adapter.adapter_surface = "c-";
  adapter.adapter_held = true;
  const Solution a = model.solve(clamp, {load}).front(), b = model.solve(adapter, {load}).front();
  for (std::size_t n = 0; n < mesh.nodes.size(); ++n)
    ASSERT_NEAR(a.displacement[n][1], b.displacement[n][1], 1e-14);
  // the sum of nodal forces K u, each rounded at 1e-16 of stiffness times displacement: 1e-9 of the
  // load leaves room for a slender beam and every order of summation
  EXPECT_NEAR(b.reaction.force[1], -200, 1e-9 * 200);
}

TEST(Adapter, NodeCannotBeHeldToo) {
  const ElasticModel model(beam_mesh(), {{Part::disc, test::steel()}});
  Supports supports = clamped_with_adapter();
  supports.held.push_back({"a-", {true, false, false}, {}});
  try {
    model.solve(supports, {adapter_load({1, 0, 0}, {})});
    FAIL();
  } catch (const Error &e) {
    EXPECT_NE(std::string(e.what()).find("adapter 'c+'"), std::string::npos) << e.what();
  }
}

}  // namespace
}  // namespace felloe
