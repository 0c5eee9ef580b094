// SPDX-License-Identifier: GPL-3.0-or-later
// Proves what may vary and what sheet and forming allow; that the section [thin] survives writing
// and reading; that the chart follows another thickness.
#include "cli/thin/design_space.h"

#include <gtest/gtest.h>

#include "cli/case_file.h"
#include "cli/thin/moved_chart.h"
#include "cli/thin/thinnest.h"
#include "mesher/error.h"
#include "mesher/sweep.h"
#include "mesher/wheel_mesh.h"

namespace felloe {
namespace {

Case demo() { return read_case(FELLOE_CASES "/steel_15x6/case.toml"); }

TEST(ThinCase, SurvivesWritingAndReading) {
  Case c = demo();
  EXPECT_EQ(resolved_case(c).find("[thin]"), std::string::npos);  // all defaults: left out
  c.thin.stations = 4;
  c.thin.tolerance_mm = 0.15;
  c.thin.gauges_mm = {3.2, 3.5};
  const Case again = read_case_text(resolved_case(c), "again.toml");
  EXPECT_EQ(again.thin.stations, 4);
  EXPECT_EQ(again.thin.tolerance_mm, 0.15);
  EXPECT_EQ(again.thin.gauges_mm, c.thin.gauges_mm);
}

TEST(SheetOnSale, IsTheThinnestThatSuffices) {
  const std::vector<double> gauges = {4.0, 3.0, 3.5};  // any order
  EXPECT_EQ(sheet_on_sale(gauges, 2.0), 3.0);
  EXPECT_EQ(sheet_on_sale(gauges, 3.0), 3.0);
  EXPECT_EQ(sheet_on_sale(gauges, 3.01), 3.5);
  EXPECT_EQ(sheet_on_sale(gauges, 4.2), 0);
  EXPECT_EQ(sheet_on_sale({}, 1.0), 0);
}

TEST(DesignSpace, KeepsHubAndFlangeFlatAndObeysTheTolerance) {
  const Case c = demo();
  const DesignSpace space = design_space(c);
  ASSERT_EQ(space.variables.size(), 6u);
  const std::vector<double> x = {3.6, 3.5, 3.3, 3.2, 3.3, 3.4};
  const WheelLayout w = layout(space.wheel_of(x, 0.1));
  EXPECT_NEAR(w.disc.thickness().at(0), 3.5, 1e-12);
  EXPECT_NEAR(w.disc.thickness().at(w.hub_face_s), 3.5, 1e-12);
  EXPECT_NEAR(w.disc.thickness().at(w.flange_s0), 3.3, 1e-12);
  EXPECT_NEAR(w.disc.thickness().at(w.disc.length()), 3.3, 1e-12);
  // thinner by 0.1 all over: 0.1 / 3.5 of the disc's mass, the weld hardly changes
  const double stated = disc_mass(c, space.wheel_of(x, 0)),
               less = disc_mass(c, space.wheel_of(x, 0.1));
  EXPECT_NEAR((stated - less) / stated, 0.1 / 3.4, 0.003);
}

TEST(DesignSpace, TakesBendsAndVentsWhenAsked) {
  Case c = demo();
  c.thin.bend_radii = c.thin.vent_diameter = true;
  const DesignSpace space = design_space(c);
  ASSERT_EQ(space.variables.size(), 6u + 3u + 1u);
  std::vector<double> x = space.start();
  x.back() = 30;
  EXPECT_EQ(space.wheel_of(x, 0).vents.diameter, 30);
}

TEST(DesignSpace, RefusesWhatItCannotDo) {
  Case c = demo();
  c.hub.contact = true;
  EXPECT_THROW(design_space(c), Error);
  c = demo();
  c.tests.clear();
  EXPECT_THROW(design_space(c), Error);
  c = demo();
  c.thin.smallest_thickness_mm = 7;  // the weld's leg of 3.7 mm covers a flange up to 6.2 mm
  EXPECT_THROW(design_space(c), Error);
}

TEST(MovedChart, KeepsTheTopologyAndGivesTheOtherWheelsVolume) {
  const Case c = demo();
  const DesignSpace space = design_space(c);
  const WheelLayout from = layout(space.wheel_of(space.start(), 0));
  std::vector<double> x = space.start();
  for (double &t : x) t *= 0.8;
  const WheelLayout to = layout(space.wheel_of(x, 0));
  const MeshSize size = mesh_size(0.5);
  const ChartMesh chart = chart_mesh(from, size), moved = moved_chart(chart, from, to);
  ASSERT_EQ(moved.quads.size(), chart.quads.size());
  const MeshQuality q = mesh_quality(sweep(to, moved, size));
  EXPECT_GT(q.min_scaled_jacobian, 0.3);
  // quadratic cells against the exact shape; 0.5 % is the gate of every wheel mesh
  EXPECT_NEAR(q.volume / exact_volumes(to).total(), 1, 1e-3);
}

}  // namespace
}  // namespace felloe
