// SPDX-License-Identifier: GPL-3.0-or-later
// Axes, ticks and curves of plots.
#include <gtest/gtest.h>

#include "post/plot/frame.h"
#include "tests/support/markup.h"

namespace felloe {
namespace {

TEST(PlotAxis, LinearTicksAreRound) {
  EXPECT_EQ(ticks({"", -37, 110, false}, 5), (std::vector<double>{0, 50, 100}));
  EXPECT_EQ(ticks({"", 0, 1, false}, 10).size(), 11u);
}

TEST(PlotAxis, LogarithmicTicksAreDecadesOrTheirHalves) {
  EXPECT_EQ(ticks({"", 1e3, 1e6, true}, 5), (std::vector<double>{1e3, 1e4, 1e5, 1e6}));
  EXPECT_EQ(ticks({"", 90, 600, true}, 5), (std::vector<double>{100, 200, 500}));
}

TEST(PlotAxis, TickWords) {
  const PlotAxis log{"", 1, 10, true}, linear{"", 0, 1, false};
  EXPECT_EQ(tick_text(log, 1e6), "10\u2076");
  EXPECT_EQ(tick_text(log, 100), "100");
  EXPECT_EQ(tick_text(linear, -50), "\u221250");
  EXPECT_EQ(tick_text(linear, 10000), "10000");
}

TEST(PlotFrame, PlacesLinearAndLogarithmicValues) {
  const PlotFrame f(200, 100, {"", 1, 100, true}, {"", 0, 10, false}, {20, 20, 10, 10});
  EXPECT_NEAR(f.at(10, 0)[0], 100, 1e-9);  // half way between 1 and 100
  EXPECT_NEAR(f.at(1, 2.5)[1], 70, 1e-9);
  EXPECT_EQ(f.held_in(1e9, -5), (Pixel{180, 90}));
}

TEST(PlotFrame, CurvesEndAtTheBorder) {
  const PlotFrame f(120, 120, {"", 0, 10, false}, {"", 0, 10, false}, {10, 10, 10, 10});
  Svg svg;
  f.curve(svg, {{-5, 5}, {5, 5}, {5, 20}, {8, 20}, {8, 5}}, "c");
  const test::Markup m(svg.element(120, 120, "p", "plot", "t", "d"));
  const auto pieces = m.all("//svg:polyline/@points");
  ASSERT_EQ(pieces.size(), 2u);
  EXPECT_EQ(pieces[0], "10.00,60.00 60.00,60.00 60.00,10.00 ");
  EXPECT_EQ(pieces[1], "90.00,10.00 90.00,60.00 ");
}

}  // namespace
}  // namespace felloe
