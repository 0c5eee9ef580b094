// SPDX-License-Identifier: GPL-3.0-or-later
// Proves where the circles of the chart mesh lie, how sizes follow the density, and what is
// refused.
#include <gtest/gtest.h>

#include <algorithm>

#include "mesher/bands.h"
#include "mesher/error.h"
#include "mesher/planar_fill.h"
#include "tests/mesh/chart_layouts.h"

using namespace felloe;

namespace {

bool has_circle(const std::vector<double> &circles, double s) {
  return std::any_of(circles.begin(), circles.end(),
                     [&](double c) { return std::abs(c - s) < 1e-9; });
}

template <class F>
std::string error_text(F &&f) {
  try {
    f();
  } catch (const Error &e) {
    return e.what();
  }
  return "";
}

}  // namespace

TEST(ChartBands, CirclesStandAtAllBorders) {
  const WheelLayout l = pressed_disc();
  const ChartMesh m = chart_mesh(l, mesh_size(1));
  const double end = l.disc.length(), t = 3.8;
  for (const double s :
       {0.0, l.hub_face_s, l.hub_face_s + 0.5 * t, l.flange_s0, end - t, end - 0.4 * t, end})
    EXPECT_TRUE(has_circle(m.circles, s)) << s;
  for (const auto &p : l.disc.meridian().pieces())
    if (p.is_bend() && p.s0 - l.hub_face_s > 5) {
      EXPECT_TRUE(has_circle(m.circles, p.s0)) << p.s0;
      EXPECT_TRUE(has_circle(m.circles, p.s1)) << p.s1;
    }
  EXPECT_EQ(m.flange_s.front(), l.flange_s0);
  EXPECT_EQ(m.flange_s.back(), m.circles.back());
}

TEST(ChartBands, CellsStayShortInBendsAndAtTheWeld) {
  for (const double density : {0.5, 0.7, 1.0, 2.0, 4.0}) {
    const WheelLayout l = pressed_disc();
    const MeshSize size = mesh_size(density);
    const std::vector<double> circles = chart_mesh(l, size).circles;
    for (std::size_t i = 0; i + 1 < circles.size(); ++i) {
      const double edge = circles[i + 1] - circles[i], mid = circles[i] + 0.5 * edge;
      for (const auto &p : l.disc.meridian().pieces())
        if (p.is_bend() && mid > p.s0 && mid < p.s1) {
          EXPECT_LE(edge * std::abs(p.curvature), 0.27 / density);  // 0.18, rounded to whole cells
        }
      if (mid > l.disc.length() - 3.8) {
        EXPECT_LE(edge, 1.2 * MeshSize{}.weld_edge / density);
      }
      EXPECT_GT(edge, 1e-3);
    }
  }
}

TEST(MeshSize, DensityTwoHalvesEdges) {
  const MeshSize half = mesh_size(0.5), one = mesh_size(1), two = mesh_size(2);
  for (const MeshSize *finer : {&one, &two}) {  // the same first mesh, halved more often
    EXPECT_EQ(finer->edge, half.edge);
    EXPECT_EQ(finer->weld_edge, half.weld_edge);
    EXPECT_EQ(finer->ring_first, half.ring_first);
    EXPECT_EQ(finer->ring_edges, half.ring_edges);
    EXPECT_EQ(finer->ring_layers, half.ring_layers);
  }
  EXPECT_EQ(half.halvings, 0);
  EXPECT_EQ(one.halvings, 1);
  EXPECT_EQ(two.halvings, 2);
  EXPECT_DOUBLE_EQ(half.edge, 2 * MeshSize{}.edge);
}

TEST(MeshSize, SizesFollowTheDensityBetweenHalvings) {
  EXPECT_DOUBLE_EQ(mesh_size(0.7).edge, MeshSize{}.edge / 0.7);
  EXPECT_DOUBLE_EQ(mesh_size(1.4).edge, MeshSize{}.edge / 0.7);
  EXPECT_EQ(mesh_size(0.79).halvings, 0);
  EXPECT_EQ(mesh_size(0.8).halvings, 1);
}

TEST(MeshSize, LayersDoubleAboveThree) {
  for (const double density : {0.5, 1.0, 2.0}) {
    EXPECT_EQ(mesh_size(density).disc_layers, 2);
    EXPECT_EQ(mesh_size(density).rim_layers, 1);
  }
  EXPECT_EQ(mesh_size(4).disc_layers, 4);
  EXPECT_EQ(mesh_size(4).rim_layers, 2);
}

TEST(MeshSize, RefusesDensitiesOutsideTheRange) {
  EXPECT_NE(error_text([] { mesh_size(0.2); }).find("between 0.25 and 4"), std::string::npos);
  EXPECT_THROW(mesh_size(4.1), Error);
  EXPECT_THROW(mesh_size(std::nan("")), Error);
}

TEST(CircleDivisions, SuitBothCounts) {
  // whole half pitches in both rows: multiples of 2 lcm
  const int counts[][3] = {{5, 10, 20}, {5, 8, 80}, {4, 8, 16},
                           {4, 10, 40}, {6, 9, 36}, {5, 7, 70}};
  for (const auto &c : counts)
    EXPECT_EQ(circle_divisions(pressed_disc(c[0], c[1]), MeshSize{}) % c[2], 0)
        << c[0] << " and " << c[1];
  for (const double density : {0.5, 1.0, 2.0})  // of the first mesh
    EXPECT_EQ(circle_divisions(pressed_disc(5, 10), mesh_size(density)), 40);
  EXPECT_EQ(chart_mesh(pressed_disc(5, 10), mesh_size(0.5)).n_theta, 40);
  EXPECT_EQ(chart_mesh(pressed_disc(5, 10), mesh_size(1)).n_theta, 80);
}

TEST(ChartBands, HoleAcrossABendIsRefusedWithItsName) {
  WheelLayout l = pressed_disc();
  l.disc_features = {
      {"crown bend", l.disc.meridian().pieces()[3].s0, l.disc.meridian().pieces()[3].s1}};
  l.vents = hole_circle(l.disc, "vent hole", 10, 240, 28);
  const std::string text = error_text([&] { chart_mesh(l, mesh_size(1)); });
  EXPECT_NE(text.find("vent holes"), std::string::npos) << text;
  EXPECT_NE(text.find("crosses the crown bend"), std::string::npos) << text;
}

TEST(ChartBands, TouchingHolesAreRefused) {
  WheelLayout l = pressed_disc();
  l.vents = hole_circle(l.disc, "vent hole", 29, 266, 28);
  const std::string text = error_text([&] { chart_mesh(l, mesh_size(1)); });
  EXPECT_NE(text.find("vent holes: neighbouring walls leave a ligament"), std::string::npos)
      << text;
}

TEST(ChartBands, OverlappingRowsAreRefused) {
  WheelLayout l = flat_plate(20, 150);
  l.bolts = hole_circle(l.disc, "bolt hole", 4, 150, 20);
  l.vents = hole_circle(l.disc, "vent hole", 6, 170, 30);
  const std::string text = error_text([&] { chart_mesh(l, mesh_size(1)); });
  EXPECT_NE(text.find("the rows overlap"), std::string::npos) << text;
}

TEST(PlanarFill, KeepsThePrescribedBoundary) {
  // a square of side 8 with a square hole of side 2, edges of length 1
  std::vector<Vec2> outer, inner;
  for (int i = 0; i < 8; ++i) outer.push_back({double(i), 0});
  for (int i = 0; i < 8; ++i) outer.push_back({8, double(i)});
  for (int i = 0; i < 8; ++i) outer.push_back({8.0 - i, 8});
  for (int i = 0; i < 8; ++i) outer.push_back({0, 8.0 - i});
  for (const Vec2 &p : {Vec2{3, 3}, {3, 4}, {3, 5}, {4, 5}, {5, 5}, {5, 4}, {5, 3}, {4, 3}})
    inner.push_back(p);
  for (const FillTrial &trial : fill_trials()) {
    const PlanarQuads mesh = planar_fill({outer, inner}, trial);
    ASSERT_FALSE(mesh.quads.empty()) << trial.algorithm;
    for (int i = 0; i < 32; ++i) EXPECT_EQ(mesh.nodes[i], outer[i]);
    for (int i = 0; i < 8; ++i) EXPECT_EQ(mesh.nodes[32 + i], inner[i]);
    double area = 0;
    for (const auto &q : mesh.quads)
      for (int v = 0; v < 4; ++v) {
        const Vec2 &a = mesh.nodes[q[v]], &b = mesh.nodes[q[(v + 1) % 4]];
        area += 0.5 * (a[0] * b[1] - a[1] * b[0]);
      }
    EXPECT_NEAR(area, 60, 1e-12);
  }
}

TEST(PlanarFill, OddLoopGivesNothing) {
  EXPECT_TRUE(planar_fill({{{0, 0}, {1, 0}, {2, 0}, {2, 2}, {0, 2}}}, {}).quads.empty());
}
