// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that the (r, z) section mesh fills the exact shape, joins disc and rim by the weld alone,
// and names its edges and points.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include "mesher/error.h"
#include "mesher/stations.h"
#include "mesher/wheel_mesh.h"
#include "tests/support/reference_wheel.h"

namespace felloe {
namespace {

double length_slope(int i, double x) { return i == 0 ? 4 * x - 3 : i == 1 ? 4 - 8 * x : 4 * x - 1; }
double length_value(int i, double x) {
  return i == 0 ? (1 - x) * (1 - 2 * x) : i == 1 ? 4 * x * (1 - x) : x * (2 * x - 1);
}

/// Revolved volume of one part, 3 x 3 Gauss points; every Jacobian must be positive.
double revolved(const SectionMesh &m, Part part) {
  const double g = std::sqrt(0.15), x[3] = {0.5 - g, 0.5, 0.5 + g},
               w[3] = {5.0 / 18, 8.0 / 18, 5.0 / 18};
  double volume = 0;
  for (std::size_t c = 0; c < m.cells.size(); ++c) {
    if (m.parts[c] != part) continue;
    for (int q = 0; q < 9; ++q) {
      double r = 0, ra = 0, rb = 0, za = 0, zb = 0;
      for (int k = 0; k < 9; ++k) {
        const Vec2 &p = m.nodes[m.cells[c][k]];
        const double va = length_value(k % 3, x[q % 3]), vb = length_value(k / 3, x[q / 3]);
        const double sa = length_slope(k % 3, x[q % 3]), sb = length_slope(k / 3, x[q / 3]);
        r += va * vb * p[0];
        ra += sa * vb * p[0];
        za += sa * vb * p[1];
        rb += va * sb * p[0];
        zb += va * sb * p[1];
      }
      const double det = ra * zb - za * rb;
      EXPECT_GT(det, 0) << "cell " << c;
      volume += w[q % 3] * w[q / 3] * det * 2 * pi * r;
    }
  }
  return volume;
}

class WheelSection : public ::testing::Test {
 protected:
  WheelLayout w = layout(reference_wheel_without_holes());
  SectionMesh m = section_mesh(w, MeshSize());
};

TEST_F(WheelSection, VolumeIsExact) {
  const PartVolumes exact = exact_volumes(w);
  // quadratic arcs of at most 50 degrees: the area between arc and parabola is below 1e-3 of the
  // bends' and much less of the whole
  EXPECT_NEAR(revolved(m, Part::disc) / exact.disc, 1, 3e-4);
  EXPECT_NEAR(revolved(m, Part::rim) / exact.rim, 1, 3e-4);
  EXPECT_NEAR(revolved(m, Part::weld) / exact.weld, 1, 1e-10);
}

TEST_F(WheelSection, MassIsThatOfASteelWheel) {
  // steel 7.85e-6 kg/mm3, common practice for 15 x 6 pressed wheels: 7 to 10 kg
  const double mass = exact_volumes(w).total() * 7.85e-6;
  EXPECT_GT(mass, 7);
  EXPECT_LT(mass, 10);
}

TEST_F(WheelSection, PressFitNodesFaceEachOther) {
  ASSERT_FALSE(m.press_fit.empty());
  for (const auto &p : m.press_fit) {
    EXPECT_NE(p.disc_node, p.rim_node);
    EXPECT_NEAR(m.nodes[p.disc_node][0], m.nodes[p.rim_node][0], 1e-9);
    EXPECT_NEAR(m.nodes[p.disc_node][1], m.nodes[p.rim_node][1], 1e-9);
    EXPECT_EQ(m.node_parts[p.disc_node], Part::disc);
    EXPECT_EQ(m.node_parts[p.rim_node], Part::rim);
  }
}

TEST_F(WheelSection, EdgesBelongToAtMostTwoCellsAndNodesAreAllUsed) {
  std::map<std::array<int, 3>, int> uses;
  std::vector<bool> used(m.nodes.size(), false);
  for (int c = 0; c < static_cast<int>(m.cells.size()); ++c)
    for (int f = 0; f < 4; ++f) {
      auto e = edge_nodes(m, {c, f});
      std::sort(e.begin(), e.end());
      ++uses[e];
    }
  for (const auto &cell : m.cells)
    for (const int k : cell) used[k] = true;
  EXPECT_EQ(std::count(used.begin(), used.end(), false), 0);
  // a corner of the border joins two of its edges; more would be an unmerged or pinched place
  std::map<int, int> border;
  for (const auto &[e, n] : uses) {
    EXPECT_LE(n, 2);
    if (n == 1)
      for (const int k : e) ++border[k];
  }
  for (const auto &[node, n] : border)
    if (n != 1) {
      EXPECT_EQ(n, 2) << node;
    }
}

TEST_F(WheelSection, DiscWeldAndRimAreOnePiece) {
  std::vector<int> parent(m.nodes.size());
  std::iota(parent.begin(), parent.end(), 0);
  const auto root = [&](int k) {
    while (parent[k] != k) k = parent[k];
    return k;
  };
  for (const auto &cell : m.cells)
    for (const int k : cell) parent[root(k)] = root(cell[0]);
  int pieces = 0;
  for (std::size_t k = 0; k < parent.size(); ++k) pieces += parent[k] == static_cast<int>(k);
  EXPECT_EQ(pieces, 1);
}

TEST_F(WheelSection, NamedEdgesPointOutOfTheShape) {
  for (const char *name :
       {"hub face", "bore", "disc outboard side", "disc inboard side", "flange overlap disc",
        "flange overlap rim", "weld face", "rim tyre side", "rim inner side", "bead seat outboard",
        "bead seat inboard", "flange outboard", "flange inboard", "well"})
    EXPECT_FALSE(edge(m, name).empty()) << name;
  const auto outward = [&](const CellFace &f) {
    const auto e = edge_nodes(m, f);
    const Vec2 a = m.nodes[e[0]], b = m.nodes[e[2]];
    return Vec2{b[1] - a[1], a[0] - b[0]};  // turned by -90 degrees
  };
  for (const auto &f : edge(m, "hub face")) EXPECT_LT(outward(f)[1], 0);
  for (const auto &f : edge(m, "bore")) EXPECT_LT(outward(f)[0], 0);
  for (const auto &f : edge(m, "well")) EXPECT_GT(outward(f)[0], 0);
  for (const auto &f : edge(m, "flange overlap disc")) EXPECT_GT(outward(f)[0], 0);
  for (const auto &f : edge(m, "flange overlap rim")) EXPECT_LT(outward(f)[0], 0);
  for (const auto &f : edge(m, "weld face")) EXPECT_LT(outward(f)[1], 0);
  EXPECT_THROW(edge(m, "fender"), Error);
}

TEST_F(WheelSection, WeldPointsAreTheTrianglesCorners) {
  const Vec2 root = m.nodes[m.points.at("weld root")], disc = m.nodes[m.points.at("weld toe disc")],
             rim = m.nodes[m.points.at("weld toe rim")];
  EXPECT_NEAR(root[0] - disc[0], 3.8, 1e-9);  // whole end face
  EXPECT_NEAR(root[1] - rim[1], 3.8, 1e-9);   // leg
  EXPECT_NEAR(root[0], rim[0], 1e-9);
}

TEST_F(WheelSection, CirclesLieWhereTheToeStressIsRead) {
  const RimStations rim = rim_stations(w, MeshSize(), {w.flange_s0, w.disc.length()}, 2);
  EXPECT_NEAR(rim.s[rim.toe], w.rim_weld_toe_s, 1e-12);
  for (const double reach : {0.4 * 2.5, 1.0 * 2.5}) {
    double nearest = 1e9;
    for (const double s : rim.s) nearest = std::min(nearest, std::abs(s - rim.s[rim.toe] - reach));
    EXPECT_LT(nearest, 1e-12);
  }
  EXPECT_TRUE(std::is_sorted(rim.s.begin(), rim.s.end()));
}

TEST(PlateSection, VolumeIsThatOfTheAnnulus) {
  const WheelLayout w = layout(flat_plate(60, 300, 4));
  const SectionMesh m = section_mesh(w, MeshSize());
  const double exact = pi * (150.0 * 150 - 30 * 30) * 4;
  EXPECT_NEAR(exact_volumes(w).total() / exact, 1, 1e-13);
  EXPECT_NEAR(revolved(m, Part::disc) / exact, 1, 1e-12);
  EXPECT_NEAR(m.nodes[m.points.at("outer edge mid-line")][0], 150, 1e-12);
  EXPECT_NEAR(m.nodes[m.points.at("outer edge mid-line")][1], 2, 1e-12);
  EXPECT_FALSE(edge(m, "outer edge").empty());
}

TEST(ExactVolume, OfAFlatPlateWithBoltHolesIsElementary) {
  Wheel wheel = flat_plate(57, 300, 4);
  wheel.disc.hub_face_diameter = 160;
  wheel.bolts = {5, 112, 14, 60, 16.5};
  const double depth = 1.25 / std::tan(pi / 6);
  // hole: cylinder up to the cone's beginning, then a frustum from radius 7 to 8.25
  const double hole = pi * 49 * (4 - depth) + pi * depth / 3 * (49 + 7 * 8.25 + 8.25 * 8.25);
  const double exact = pi * (150.0 * 150 - 28.5 * 28.5) * 4 - 5 * hole;
  EXPECT_NEAR(exact_volumes(layout(wheel)).disc, exact, 1e-4);
}

}  // namespace
}  // namespace felloe
