// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that the condensed contact of a bolted disc is the whole body's contact: by sectors or
// whole, from any start, under a moment that turns.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "solver/contact.h"
#include "tests/support/block_mesh.h"
#include "tests/support/bolted_disc.h"
#include "tests/support/steel.h"

namespace felloe {
namespace {

using test::Bolted;
using test::bolted_disc;
using test::four_bolts;
using test::moments;
using test::opening_moment;
using test::rim_held;
using test::turned_moment;

double largest(const std::vector<double> &v) { return *std::max_element(v.begin(), v.end()); }

class BothFrictions : public ::testing::TestWithParam<FaceFriction> {};
INSTANTIATE_TEST_SUITE_P(Frictions, BothFrictions,
                         ::testing::Values(FaceFriction::none, FaceFriction::sticking));

TEST_P(BothFrictions, SectorsAndWholeAgree) {
  const Bolted by_sectors(true, GetParam()), whole(false, GetParam());
  EXPECT_EQ(by_sectors.contact.n_sectors(), 4);
  EXPECT_EQ(whole.contact.n_sectors(), 1);
  const ContactState a0 = by_sectors.contact.clamped(), b0 = whole.contact.clamped();
  const auto factors = turned_moment(opening_moment, 0.4);
  const ContactState a = by_sectors.contact.loaded(a0, factors),
                     b = whole.contact.loaded(b0, factors);
  EXPECT_GT(a.open_share, a0.open_share);
  for (std::size_t i = 0; i < a.pressure.size(); ++i)
    EXPECT_NEAR(a.pressure[i], b.pressure[i], 1e-6 * largest(b.pressure));
  for (int k = 0; k < 4; ++k) EXPECT_NEAR(a.bolt_force[k], b.bolt_force[k], 1e-7 * 20000);
}

TEST_P(BothFrictions, StartSetDoesNotMatter) {
  const Bolted disc(true, GetParam());
  const ContactState tight = disc.contact.clamped();
  const auto factors = turned_moment(opening_moment, 0.4);
  const ContactState s = disc.contact.loaded(tight, factors);
  EXPECT_LT(s.complementarity_error, 1e-8);
  std::mt19937 random(7);
  for (int trial = 0; trial < 6; ++trial) {
    ContactState start = tight;
    for (std::size_t i = 0; i < start.closed.size(); ++i)
      start.closed[i] = trial == 0 ? false : random() % 2;
    const ContactState t = disc.contact.loaded(tight, factors, &start);
    for (std::size_t i = 0; i < s.pressure.size(); ++i) {
      ASSERT_NEAR(t.pressure[i], s.pressure[i], 1e-8 * largest(s.pressure));
      ASSERT_NEAR(t.gap[i], s.gap[i], 1e-8 * largest(s.gap));
    }
    EXPECT_LT(t.complementarity_error, 1e-8);
    EXPECT_LT(t.steps, 40);
  }
}

// The found motions of the face on the plain body bring back the found forces: nothing at open
// nodes, and in sum the bolts and the moment.
TEST_P(BothFrictions, WholeBodyFeelsTheFoundForces) {
  const Bolted disc(true, GetParam());
  const ContactState tight = disc.contact.clamped();
  const ContactState s = disc.contact.loaded(tight, turned_moment(opening_moment, 0.4));
  const LoadCase load = disc.contact.load_case(s, "moment");
  const NodeResponses body =
      disc.model.solve_at(disc.contact.supports(), {load}, disc.contact.nodes()).front();
  Resultant on_adapter;
  for (std::size_t i = 0; i < s.face_force.size(); ++i) {
    EXPECT_LT(norm(subtract(body.support_force[i], s.face_force[i])), 1e-7 * largest(s.bolt_force));
    if (!s.closed[i]) {
      EXPECT_EQ(s.pressure[i], 0);
    }
    const Vec3 &x = disc.mesh.nodes[disc.contact.nodes()[i]];
    on_adapter.force = subtract(on_adapter.force, s.face_force[i]);
    on_adapter.moment = subtract(on_adapter.moment, cross(x, s.face_force[i]));
  }
  double bolts = 0;
  for (const double f : s.bolt_force) bolts += f;
  EXPECT_NEAR(on_adapter.force[2], -bolts, 1e-6 * bolts);
  const Solution whole = disc.model.solve(disc.contact.supports(), {load}).front();
  EXPECT_LT(whole.balance_error, 1e-6);
}

// With everything closed and sticking, a small moment moves the adapter as if face and adapter were
// one, bolts of constant force.
TEST(StickingFace, ClosedEverywhereIsABond) {
  const Mesh mesh = bolted_disc(true, true);
  const ElasticModel model(mesh, {{Part::disc, test::steel()}}, NodalFrame::cylindrical);
  HubContact c = four_bolts(FaceFriction::sticking);
  for (ContactBolt &bolt : c.bolts) bolt = {bolt.seat, 1e5, 0};
  const ContactModel contact(mesh, model, rim_held(), c, moments());
  const ContactState tight = contact.clamped(), bent = contact.loaded(tight, {0.01, 0});
  ASSERT_EQ(tight.open_share, 0);
  ASSERT_EQ(bent.open_share, 0);
  Supports bonded = rim_held();
  bonded.adapter_surface = "hub face";
  const Solution unit = model.solve(bonded, {moments()[0]}).front();
  for (int m = 0; m < 6; ++m)
    EXPECT_NEAR((bent.adapter_motion[m] - tight.adapter_motion[m]) / 0.01, unit.adapter_motion[m],
                1e-6 * unit.adapter_motion[3]);
}

// Nodes that stay open need not take part: the same forces without them, and they stay open.
// Leaving out some that press is seen by their gap.
TEST(TouchingNodes, MayBeFewer) {
  const Bolted all(true, FaceFriction::none);
  const auto factors = turned_moment(opening_moment, 0.4);
  const ContactState tight = all.contact.clamped(), a = all.contact.loaded(tight, factors);
  std::vector<bool> wanted(a.closed.size(), false);
  for (std::size_t i = 0; i < wanted.size(); ++i)
    if (a.closed[i] || tight.closed[i])  // and where that comes to in the other sectors
      for (int k = 0, j = static_cast<int>(i); k < 4; ++k, j = all.contact.turned()[j])
        wanted[j] = true;
  for (const bool too_few : {false, true}) {
    Mesh mesh = all.mesh;
    for (std::size_t i = 0; i < wanted.size(); ++i) {
      const int n = all.contact.nodes()[i];
      const Vec3 &x = mesh.nodes[n];
      if (wanted[i] && !(too_few && std::hypot(x[0], x[1]) > 52))
        mesh.lines["touching"].push_back(n);
    }
    ASSERT_LT(mesh.lines["touching"].size(), wanted.size());
    const ElasticModel model(mesh, {{Part::disc, test::steel()}}, NodalFrame::cylindrical);
    HubContact c = four_bolts(FaceFriction::none);
    c.touching_nodes = "touching";
    const ContactModel fewer(mesh, model, rim_held(), c, moments());
    const ContactState b = fewer.loaded(fewer.clamped(), factors);
    const Solution body = model.solve(fewer.supports(), {fewer.load_case(b, "moment")}).front();
    const double elsewhere = fewer.smallest_gap_elsewhere(b, body);
    if (too_few) {
      EXPECT_LT(elsewhere, 0);
      continue;
    }
    EXPECT_GT(elsewhere, -1e-9);
    for (int k = 0; k < 4; ++k) EXPECT_NEAR(b.bolt_force[k], a.bolt_force[k], 1e-7 * 20000);
    EXPECT_NEAR(b.open_share, a.open_share, 1e-12);
  }
}

TEST(ContactTurn, SeesWhatOpens) {
  const Bolted disc(true, FaceFriction::sticking);
  const ContactState tight = disc.contact.clamped();
  const auto turn = [&](double size) {
    return contact_turn(
        disc.contact, tight, [&](double angle) { return turned_moment(size, angle); }, 24);
  };
  const ContactTurn none = turn(0), large = turn(opening_moment);
  EXPECT_EQ(none.states.size(), 6u);
  EXPECT_TRUE(none.superposition_exact);
  EXPECT_NEAR(none.open_share, tight.open_share, 1e-12);
  EXPECT_NEAR(none.smallest_bolt_force, 20000, 0.1);
  EXPECT_NEAR(none.largest_bolt_force, 20000, 0.1);
  EXPECT_FALSE(large.superposition_exact);
  EXPECT_GT(large.open_share, tight.open_share);
  EXPECT_LT(large.smallest_bolt_force, 20000);
  EXPECT_GT(large.largest_bolt_force, 20000);
  // a quarter of a turn later everything is the same one sector further
  const ContactState next = disc.contact.loaded(tight, turned_moment(opening_moment, pi / 2));
  const ContactState &first = large.states.front();
  for (std::size_t i = 0; i < first.pressure.size(); ++i)
    EXPECT_NEAR(next.pressure[disc.contact.turned()[i]], first.pressure[i],
                1e-7 * largest(first.pressure));
  for (int k = 0; k < 4; ++k) EXPECT_NEAR(next.bolt_force[(k + 1) % 4], first.bolt_force[k], 1e-3);
}

// VDI 2230 (from memory): M12 x 1.5, 20 mm clamped, by hand: A_N 113.097, A_3 = pi/4 x 10.1597^2
// = 81.0684 mm2; 1/c = (8.76 / 113.097 + 26 / 81.0684) / 205000 -> 5.14852e5 N/mm.
TEST(BoltStiffness, FollowsItsFormula) { EXPECT_NEAR(bolt_stiffness({12, 1.5}, 20), 5.14852e5, 5); }

}  // namespace
}  // namespace felloe
