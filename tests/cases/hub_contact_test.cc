// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that a run with hub contact works from case to verdict, that its states balance, and that
// the program tells when superposition is good enough.
#include "cli/hub_contact.h"

#include <gtest/gtest.h>

#include <cmath>

#include "cli/case_file.h"
#include "tests/support/block_mesh.h"
#include "tests/support/steel.h"

namespace felloe {
namespace {

/// Disc r 30 ... 100, 10 thick, face r < 70 below, bolt seats over all of it.
Mesh bolted_disc() {
  Mesh mesh = test::block_mesh(test::ring(30, 100, 0, 10, {7, 16, 1}));
  for (const CellFace &f : mesh.surfaces.at("bottom"))
    if (f.cell % 7 < 4) mesh.surfaces["hub face"].push_back(f);
  for (const CellFace &f : mesh.surfaces.at("top"))
    if (f.cell % 7 < 4) mesh.surfaces["seat " + std::to_string(f.cell / 28 + 1)].push_back(f);
  return mesh;
}

// Under even pressure a small moment lifts nothing off: the sum is exact. Pulling the face open is
// no sum.
TEST(Superposition, IsExactUntilTheFaceOpens) {
  const Mesh mesh = bolted_disc();
  const ElasticModel model(mesh, {{Part::disc, test::steel()}}, NodalFrame::cylindrical);
  HubContact contact;
  for (int k = 1; k <= 4; ++k) contact.bolts.push_back({"seat " + std::to_string(k), 1e5, 3e5});
  Supports supports;
  supports.held = {{"outside"}};
  LoadCase moment;
  moment.name = "moment";
  moment.adapter.moment = {1e6, 0, 0};
  const ContactModel wheel(mesh, model, supports, contact, {moment});
  const ContactState tight = wheel.clamped();
  ASSERT_EQ(tight.open_share, 0);
  const auto error = [&](double size) {
    return superposition_error(tight, wheel.loaded(tight, {size}), wheel.change(tight, {size}));
  };
  EXPECT_LT(error(0.01), 1e-7);
  EXPECT_GT(wheel.loaded(tight, {20}).open_share, 0);
  EXPECT_GT(error(20), largest_superposition_error);
  // linear in the factors, bolts included
  const ContactState one = wheel.change(tight, {1}), two = wheel.change(tight, {2});
  for (int k = 0; k < 4; ++k) EXPECT_NEAR(two.bolt_force[k], 2 * one.bolt_force[k], 1e-7 * 1e5);
}

double stress(const Results &r, const std::string &test, const std::string &feature) {
  for (const HotSpot &h : r.hot_spots)
    if (h.test == test && h.feature == feature) return h.fully_reversed;
  ADD_FAILURE() << feature << " is not rated under " << test;
  return 0;
}

// The demo wheel, coarse, without press fit, a few positions: contact against bond.
TEST(HubContactRun, LoadsTheBoltHolesMoreThanABond) {
  Case c = read_case(std::string(FELLOE_CASES) + "/steel_15x6/case.toml");
  c.mesh.density = 0.5;
  c.press_fit.interference_mm = 0;
  c.radial.positions_per_turn = 10;
  Progress quiet(true);
  const Results bonded = analyse(c, quiet).results;
  c.hub.contact = true;
  const Results touching = analyse(c, quiet).results;
  EXPECT_TRUE(bonded.contact.empty());
  ASSERT_EQ(touching.contact.size(), 2u);
  for (const ContactFigures &f : touching.contact) {
    EXPECT_GE(f.open_share, f.open_share_clamped - 1e-9) << f.test;
    EXPECT_LT(f.open_share, 1) << f.test;
    EXPECT_GT(f.smallest_bolt_force_N, 0) << f.test;
    EXPECT_GE(f.largest_bolt_force_N, f.smallest_bolt_force_N) << f.test;
    // bolts press on at most the closed share of the face
    EXPECT_GT(f.largest_pressure_MPa, 0) << f.test;
    // stepped unless the sum is good enough
    EXPECT_EQ(f.superposed, f.superposition_error <= largest_superposition_error) << f.test;
  }
  for (const LoadCaseFigures &l : touching.load_cases) {
    EXPECT_LT(l.balance_error, 1e-6) << l.name;
    EXPECT_LT(l.residual, 1e-6) << l.name;
  }
  // a bond shields the holes and clamps the border of the face
  EXPECT_GT(stress(touching, "cornering", "bolt hole edge"),
            stress(bonded, "cornering", "bolt hole edge"));
  EXPECT_LT(stress(touching, "cornering", "hub face border"),
            stress(bonded, "cornering", "hub face border"));
  // far away both are the same wheel
  EXPECT_NEAR(stress(touching, "cornering", "vent edge") / stress(bonded, "cornering", "vent edge"),
              1, 0.2);
  for (const HotSpot &h : touching.hot_spots)
    for (const std::string &note : h.notes)
      EXPECT_EQ(note.find("bonded"), std::string::npos) << h.feature << ": " << note;
  EXPECT_EQ(touching.stiffness.tilt_Nm_per_deg, bonded.stiffness.tilt_Nm_per_deg);
}

// The same wheel with dry friction: it slips a little round the bolts, and the joint holds. The
// rolling force is carried by friction alone: margin = coefficient x clamp / force, but for what
// presses where nothing rubs.
TEST(HubContactRun, SlipsAndHolds) {
  Case c = read_case(std::string(FELLOE_CASES) + "/steel_15x6/case.toml");
  c.mesh.density = 0.5;
  c.press_fit.interference_mm = 0;
  c.radial.positions_per_turn = 10;
  c.hub.contact = true;
  c.hub.friction_coefficient = 0.2;
  Progress quiet(true);
  const Results r = analyse(c, quiet).results;
  ASSERT_EQ(r.contact.size(), 2u);
  for (const ContactFigures &f : r.contact) {
    EXPECT_EQ(f.friction.coefficient, 0.2);
    EXPECT_GT(f.friction.slipping_share, 0) << f.test;
    EXPECT_LT(f.friction.slipping_share, 1) << f.test;
    EXPECT_GT(f.friction.largest_slip_mm, 0) << f.test;
    EXPECT_GT(f.friction.slip_margin, 1) << f.test;
    EXPECT_GE(f.friction.sectors_stepped, 2) << f.test;
    if (f.test == "rolling")
      EXPECT_LE(f.friction.slip_margin, (1 + 1e-9) * 0.2 / f.friction_needed);
  }
}

}  // namespace
}  // namespace felloe
