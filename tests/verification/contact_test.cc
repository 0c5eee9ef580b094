// SPDX-License-Identifier: GPL-3.0-or-later
// Proves contact, bolts and their balance against closed forms of bars, columns and joints.
#include <gtest/gtest.h>

#include <cmath>

#include "mesher/error.h"
#include "solver/contact.h"
#include "tests/support/block_mesh.h"
#include "tests/support/steel.h"

namespace felloe {
namespace {

using test::Block;

Block box(double x0, double x1, double y1, double z0, double z1, std::array<int, 3> n) {
  Block block;
  block.n = n;
  block.map = [=](const Vec3 &p) {
    return Vec3{x0 + (x1 - x0) * p[0], y1 * p[1], z0 + (z1 - z0) * p[2]};
  };
  return block;
}

LoadCase on_adapter(const Vec3 &force, const Vec3 &moment) {
  LoadCase load;
  load.name = "on the adapter";
  load.adapter = {force, moment};
  return load;
}

// Bar of 100 mm2 and 100 mm, fixed at one end, 20000 N at 60 mm from there, 0.02 mm of gap at the
// other end: the gap closes, 7800 N there, 0.03485714 mm under the load (statics; E 210000, nu 0).
TEST(BarWithGap, ClosesAndShares) {
  Block lower = box(0, 10, 10, 0, 40, {1, 1, 2}), upper = box(0, 10, 10, 40, 100, {1, 1, 2});
  lower.sides = {"", "", "", "", "end", ""};
  upper.sides = {"", "", "", "", "load", "fixed"};
  const Mesh mesh = test::block_mesh({lower, upper});
  const ElasticModel model(mesh, {{Part::disc, test::steel(210000, 0)}});
  Supports supports;
  supports.held = {{"fixed"}};
  HubContact gap;
  gap.face = "end";
  gap.friction = FaceFriction::none;
  gap.adapter_free = {};
  gap.initial_gap = [](const Vec3 &) { return 0.02; };
  LoadCase load;
  load.name = "push";
  load.tractions = {{"load", [](const Vec3 &, const Vec3 &) { return Vec3{0, 0, -200}; }}};
  const ContactModel contact(mesh, model, supports, gap, {load});

  const ContactState s = contact.clamped({1});
  double force = 0;
  for (const Vec3 &f : s.face_force) force += f[2];
  EXPECT_NEAR(force, 7800, 1e-6 * 7800);
  for (const double p : s.pressure) EXPECT_NEAR(p, 78, 1e-6 * 78);
  const Solution whole = model.solve(contact.supports(), {contact.load_case(s, "pushed")}).front();
  EXPECT_NEAR(whole.displacement[test::node_at(mesh, {5, 5, 40})][2], -0.03485714, 1e-8);
  EXPECT_NEAR(whole.stress[test::node_at(mesh, {5, 5, 20})][2], -78, 1e-5);

  // a third of the load leaves the gap open: 20000/3 x 60 / (E A) = 0.01905 mm
  const ContactState third = contact.clamped({1.0 / 3});
  EXPECT_EQ(third.open_share, 1);
  for (const double g : third.gap) EXPECT_NEAR(g, 0.02 - 2.0 / 105, 1e-10);
}

/// Columns 5 mm wide side by side, each on its own: an elastic bed without coupling.
Mesh bed() {
  std::vector<Block> columns;
  for (int k = 0; k < 20; ++k) {
    columns.push_back(box(-50 + 5 * k, -45 + 5 * k, 20, -10, 0, {1, 1, 1}));
    columns.back().sides = {"", "", "", "", "ground", "top"};
    columns.back().part = k % 2 ? Part::rim : Part::disc;  // nodes of different parts stay apart
  }
  return test::block_mesh(columns);
}

// Rigid block 100 x 20 on an elastic bed under 10000 N, off the middle by e: kern rule of a
// rectangular base. e = 10 mm: 5 (1 +- 0.6) = 8 and 2 MPa. e = 30 mm: contact over
// 3 (50 - e) = 60 mm with 2 P / (60 x 20) = 16.666667 MPa at the edge.
TEST(KernRule, PressureUnderARigidBlock) {
  const Mesh mesh = bed();
  const Material m = test::steel(1000, 0);
  const ElasticModel model(mesh, {{Part::disc, m}, {Part::rim, m}});
  Supports supports;
  supports.held = {{"ground"}};
  HubContact block;
  block.face = "top";
  block.friction = FaceFriction::none;
  block.adapter_free = {false, false, true, false, true, false};
  const double force = 10000;
  const ContactModel contact(
      mesh, model, supports, block,
      {on_adapter({0, 0, -force}, {}), on_adapter({}, {0, force, 0})});  // -P at x: moment P x
  for (const bool all_open : {false, true}) {
    ContactState start = contact.clamped({1, 0});
    if (all_open) start.closed.assign(start.closed.size(), false);
    const ContactState inside = contact.clamped({1, 10}, &start);
    const ContactState outside = contact.clamped({1, 30}, &start);
    for (std::size_t i = 0; i < contact.nodes().size(); ++i) {
      const double x = mesh.nodes[contact.nodes()[i]][0];
      EXPECT_NEAR(inside.pressure[i], 5 * (1 + 0.6 * x / 50), 1e-6);
      EXPECT_NEAR(outside.pressure[i], std::max(0.0, 16.6666667 * (x + 10) / 60), 1e-6);
    }
    EXPECT_LT(outside.complementarity_error, 1e-8);
  }
}

/// Tube r 60 ... 100, z 0 ... 100, in four equal sectors.
Mesh tube(bool repeats) {
  Mesh mesh = test::block_mesh(test::ring(60, 100, 0, 100, {2, 32, 1}));
  if (!repeats) return mesh;
  mesh.symmetry = 4;
  for (const Vec3 &x : mesh.nodes) mesh.turned.push_back(test::node_at(mesh, {-x[1], x[0], x[2]}));
  return mesh;
}

// Annular face 60/100 (radii) under the clamp force 1e5 N begins to open at
// M = F (ro^2 + ri^2) / (4 ro) = 3.4e6 N mm (F/A = M ro / I). A tube with nu = 0 between a plane
// and a support that both are free across follows the beam exactly; 0.5 % for the circle of
// quadratic cells and for forces that stand for the nodes' areas.
TEST(AnnularFace, OpensAtItsMoment) {
  for (const bool repeats : {false, true}) {
    const Mesh mesh = tube(repeats);
    const ElasticModel model(mesh, {{Part::disc, test::steel(210000, 0)}}, NodalFrame::cylindrical);
    Supports supports;
    supports.held = {{"top", {false, true, true}, {}}};
    HubContact face;
    face.face = "bottom";
    face.friction = FaceFriction::none;
    const double force = 1e5, moment = 3.4e6;
    const ContactModel contact(mesh, model, supports, face,
                               {on_adapter({0, 0, force}, {}), on_adapter({}, {0, moment, 0})});
    EXPECT_EQ(contact.n_sectors(), repeats ? 4 : 1);
    EXPECT_EQ(contact.clamped({1, 0.995}).open_share, 0);
    EXPECT_GT(contact.clamped({1, 1.005}).open_share, 0);
    const double mean = force / (pi * (100 * 100 - 60 * 60));
    const ContactState half = contact.clamped({1, 0.5});
    for (std::size_t i = 0; i < contact.nodes().size(); ++i) {
      const double x = mesh.nodes[contact.nodes()[i]][0];
      EXPECT_NEAR(half.pressure[i], mean * (1 - 0.5 * x / 100), 5e-3 * mean);
    }
  }
}

/// Column 10 x 10 x 50 between adapter (below) and bolt seat (above): c = E A / L = 420000 N/mm.
struct Joint {
  Mesh mesh;
  ElasticModel model;
  static Block column() {
    Block b = box(-5, 5, 10, 0, 50, {2, 2, 3});
    b.sides = {"", "", "", "", "face", "seat"};
    return b;
  }
  Joint() : mesh(test::block_mesh(column())), model(mesh, {{Part::disc, test::steel(210000, 0)}}) {}
};

// Bolt c_b and clamped part c_p: an outer force F at the seat adds F c_b / (c_b + c_p) to the bolt
// until the face opens at F = preload (1 + c_b / c_p); then the bolt carries all of it (joint
// diagram; VDI 2230). The part is held by nothing but contact.
TEST(BoltedJoint, FollowsTheJointDiagram) {
  const Joint joint;
  HubContact clamp;
  clamp.face = "face";
  clamp.adapter_free = {};
  clamp.bolts = {{"seat", 20000, 140000}};
  LoadCase pull;
  pull.name = "pull";
  pull.tractions = {{"seat", [](const Vec3 &, const Vec3 &) { return Vec3{0, 0, 10}; }}};
  const ContactModel contact(joint.mesh, joint.model, {}, clamp, {pull});
  const ContactState tight = contact.clamped();
  EXPECT_NEAR(tight.bolt_force[0], 20000, 1e-9);
  EXPECT_NEAR(tight.bolt_elongation[0], -20000 / 420000.0, 1e-9);
  for (const double p : tight.pressure) EXPECT_NEAR(p, 200, 1e-5);

  const ContactState worked = contact.loaded(tight, {12});  // 12000 N
  EXPECT_NEAR(worked.bolt_force[0], 20000 + 12000 * 0.25, 1e-4);
  EXPECT_EQ(worked.open_share, 0);
  // opens at 20000 x 4 / 3 = 26667 N: beyond, nothing holds the part but the bolt, which gives way
  EXPECT_GT(contact.loaded(tight, {26.6}).pressure[0], 0);
  EXPECT_THROW(contact.loaded(tight, {27}), Error);
  // pressed so hard that the bolt goes slack: 20000 / 0.25 = 80000 N
  EXPECT_NEAR(contact.loaded(tight, {-79}).bolt_force[0], 250, 1e-4);
  const ContactState slack = contact.loaded(tight, {-90});
  EXPECT_EQ(slack.bolt_force[0], 0);
  for (const double p : slack.pressure) EXPECT_NEAR(p, 900, 1e-4);
}

TEST(ContactFace, MustBeAPlaneAcrossTheAxis) {
  Block tilted = box(-5, 5, 10, 0, 50, {1, 1, 1});
  const auto straight = tilted.map;
  tilted.map = [=](const Vec3 &p) {
    const Vec3 x = straight(p);
    return Vec3{x[0], x[1], x[2] + 0.2 * x[0]};
  };
  const Mesh mesh = test::block_mesh(tilted);
  const ElasticModel model(mesh, {{Part::disc, test::steel()}});
  HubContact contact;
  contact.face = "c-";
  EXPECT_THROW(ContactModel(mesh, model, {}, contact, {}), Error);
}

}  // namespace
}  // namespace felloe
