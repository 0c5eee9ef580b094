// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that the chart mesh is a conforming, symmetric, well-shaped quad mesh of the disc.
#include "mesher/chart_mesh.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <numeric>
#include <set>

#include "mesher/hole_ring.h"
#include "mesher/quad_smoothing.h"
#include "tests/mesh/chart_layouts.h"

using namespace felloe;

namespace {

using Edge = std::pair<int, int>;

/// Corner nodes counterclockwise, in chart coordinates unrolled round the first one.
std::array<Vec2, 4> corners(const ChartMesh &m, const Sheet &disc, const ChartQuad &q) {
  std::array<Vec2, 4> p;
  const double home = m.nodes[q.nodes[0]].theta;
  const int order[4] = {0, 1, 3, 2};
  for (int v = 0; v < 4; ++v) {
    const ChartNode &n = m.nodes[q.nodes[order[v]]];
    p[v] = {disc.sigma(n.s), n.theta - 2 * pi * std::round((n.theta - home) / (2 * pi))};
  }
  return p;
}

std::map<Edge, int> edge_uses(const ChartMesh &m) {
  std::map<Edge, int> uses;
  for (const auto &q : m.quads) {
    const int c[4] = {q.nodes[0], q.nodes[1], q.nodes[3], q.nodes[2]};
    for (int v = 0; v < 4; ++v) ++uses[std::minmax({c[v], c[(v + 1) % 4]})];
  }
  return uses;
}

int components(const ChartMesh &m) {
  std::vector<int> parent(m.nodes.size());
  std::iota(parent.begin(), parent.end(), 0);
  const auto root = [&](int n) {
    while (parent[n] != n) n = parent[n] = parent[parent[n]];
    return n;
  };
  for (const auto &q : m.quads)
    for (const int n : q.nodes) parent[root(n)] = root(q.nodes[0]);
  std::set<int> roots;
  for (int n = 0; n < static_cast<int>(parent.size()); ++n) roots.insert(root(n));
  return static_cast<int>(roots.size());
}

double worst_quality(const ChartMesh &m, const Sheet &disc) {
  double worst = 1;
  for (const auto &q : m.quads) worst = std::min(worst, scaled_jacobian(corners(m, disc, q)));
  return worst;
}

/// Twice the signed area of a polygon.
template <class Points>
double doubled_area(const Points &p) {
  double a = 0;
  for (std::size_t i = 0; i < p.size(); ++i) {
    const auto &u = p[i], &v = p[(i + 1) % p.size()];
    a += u[0] * v[1] - u[1] * v[0];
  }
  return a;
}

void expect_conforming(const ChartMesh &m) {
  EXPECT_EQ(components(m), 1);
  int boundary = 0, expected = 2 * m.n_theta;
  const auto uses = edge_uses(m);
  for (const auto &[edge, n] : uses) {
    EXPECT_LE(n, 2);
    boundary += n == 1;
  }
  for (const auto &ring : m.rings) expected += static_cast<int>(ring.phi.size());
  EXPECT_EQ(boundary, expected);
  // an annulus has the Euler characteristic 0 and loses 1 with each hole
  EXPECT_EQ(static_cast<int>(m.nodes.size()) - static_cast<int>(uses.size()) +
                static_cast<int>(m.quads.size()),
            -static_cast<int>(m.holes.size()));
  EXPECT_EQ(m.holes.size(), m.rings.size());
  for (const auto &n : m.nodes) {
    EXPECT_GE(n.theta, 0);
    EXPECT_LT(n.theta, 2 * pi);
  }
}

/// Quads with positive areas whose sum is that of the region cover it once.
void expect_covered_once(const ChartMesh &m, const Sheet &disc) {
  double area = 0;
  for (const auto &q : m.quads) {
    const double a = 0.5 * doubled_area(corners(m, disc, q));
    EXPECT_GT(a, 0);
    area += a;
  }
  double expected = 2 * pi * disc.sigma(disc.length());
  std::vector<std::map<int, std::array<double, 2>>> walls(m.holes.size());  // by spoke
  for (const auto &n : m.nodes)
    if (n.hole >= 0 && n.xi == 0) {
      const double centre = m.holes[n.hole].theta;
      walls[n.hole][n.spoke] = {disc.sigma(n.s),
                                n.theta - 2 * pi * std::round((n.theta - centre) / (2 * pi))};
    }
  for (const auto &wall : walls) {
    std::vector<std::array<double, 2>> polygon;
    for (const auto &[spoke, at] : wall) polygon.push_back(at);
    expected -= 0.5 * doubled_area(polygon);
  }
  EXPECT_NEAR(area, expected, 1e-10 * expected);
}

/// Each circle carries n_theta nodes at equal angles, those of the hub and the flange exactly at
/// 2 pi k / n_theta. `sheared`: the circles in between may be turned by up to half a division.
void expect_circles_on_grid(const ChartMesh &m, double hub_face_s, double flange_s0, bool sheared) {
  const double d = 2 * pi / m.n_theta;
  for (const double s : m.circles) {
    std::vector<double> thetas;
    for (const auto &n : m.nodes)
      if (n.s == s) thetas.push_back(n.theta);
    std::sort(thetas.begin(), thetas.end());
    ASSERT_EQ(static_cast<int>(thetas.size()), m.n_theta) << "circle at " << s;
    const bool exact = !sheared || s <= hub_face_s || s >= flange_s0;
    for (int k = 0; k < m.n_theta; ++k) {
      if (exact) {
        EXPECT_EQ(thetas[k], 2 * pi * k / m.n_theta);
      } else {
        EXPECT_NEAR(thetas[k] - thetas[0], k * d, 1e-12);
        EXPECT_LE(std::min(thetas[0], d - thetas[0]), 0.5 * d + 1e-12);
      }
    }
  }
}

/// Nodes found by place, to 1e-9.
class NodePlaces {
 public:
  explicit NodePlaces(const ChartMesh &m) {
    for (std::size_t i = 0; i < m.nodes.size(); ++i)
      places_[key(m.nodes[i].s, m.nodes[i].theta)] = static_cast<int>(i);
  }
  std::size_t size() const { return places_.size(); }
  int at(double s, double theta) const {
    const auto [a, b] = key(s, theta);
    for (const long da : {0L, -1L, 1L})
      for (const long db : {0L, -1L, 1L}) {
        const auto found = places_.find({a + da, b + db});
        if (found != places_.end()) return found->second;
      }
    return -1;
  }

 private:
  static std::pair<long, long> key(double s, double theta) {
    double t = std::fmod(theta + 4 * pi, 2 * pi);
    if (t > 2 * pi - 1e-9) t = 0;
    return {std::lround(s * 1e8), std::lround(t * 1e9)};
  }
  std::map<std::pair<long, long>, int> places_;
};

/// The turned or mirrored mesh is the mesh.
void expect_invariant(const ChartMesh &m, double turn, bool mirrored) {
  const NodePlaces places(m);
  ASSERT_EQ(places.size(), m.nodes.size());
  std::vector<int> image;
  for (const auto &n : m.nodes) {
    image.push_back(places.at(n.s, mirrored ? -n.theta : n.theta + turn));
    ASSERT_GE(image.back(), 0);
  }
  std::set<std::set<int>> quads;
  for (const auto &q : m.quads) quads.insert({q.nodes.begin(), q.nodes.end()});
  for (const auto &q : m.quads) {
    std::set<int> turned;
    for (const int n : q.nodes) turned.insert(image[n]);
    EXPECT_EQ(quads.count(turned), 1u);
  }
}

struct Design {
  int bolts = 5, vents = 10;
  double density = 1, phase = 0;
};

class DiscChart : public testing::TestWithParam<Design> {};

}  // namespace

TEST_P(DiscChart, IsConformingSymmetricAndWellShaped) {
  const Design d = GetParam();
  const WheelLayout l = pressed_disc(d.bolts, d.vents, d.phase);
  const ChartMesh m = chart_mesh(l, mesh_size(d.density));
  EXPECT_EQ(m.symmetry, std::gcd(d.bolts, d.vents));
  expect_conforming(m);
  expect_covered_once(m, l.disc);
  expect_circles_on_grid(m, d.bolts > 0 ? l.hub_face_s : -1, l.flange_s0,
                         d.phase == 0.1 || d.phase == 0.05);
  if (m.symmetry > 1) expect_invariant(m, 2 * pi / m.symmetry, false);
  // halving keeps the shape of the first mesh, which has few cells between the vents
  EXPECT_GE(worst_quality(m, l.disc), 0.3);
}

INSTANTIATE_TEST_SUITE_P(Counts, DiscChart,
                         testing::Values(Design{5, 10, 0.5}, Design{5, 10, 1}, Design{5, 10, 2},
                                         Design{5, 8, 1}, Design{5, 8, 2}, Design{4, 8, 1},
                                         Design{4, 10, 1}, Design{6, 9, 1}, Design{5, 7, 1},
                                         Design{5, 13, 1}, Design{5, 8, 0.5}, Design{5, 0, 1},
                                         Design{0, 10, 1}, Design{5, 10, 1, pi / 10},
                                         Design{5, 10, 1, 0.1}, Design{5, 8, 1, 0.1},
                                         Design{5, 7, 2, 0.05}));

TEST(ChartMesh, ReferenceDiscIsFineEnoughAndWellShaped) {
  const WheelLayout l = pressed_disc();
  const ChartMesh m = chart_mesh(l, mesh_size(1));
  EXPECT_EQ(m.n_theta, 80);
  EXPECT_GT(m.quads.size(), 2000u);
  EXPECT_LT(m.quads.size(), 8000u);
  EXPECT_GE(worst_quality(m, l.disc), 0.5);
  expect_invariant(m, 0, true);  // bolts and vents share the mirror line theta = 0
}

TEST(ChartMesh, SameInputGivesIdenticalArrays) {
  const WheelLayout l = pressed_disc(5, 8, 0.1);
  const ChartMesh a = chart_mesh(l, mesh_size(0.5));
  chart_mesh(pressed_disc(6, 9), mesh_size(0.5));  // leaves no trace in the next one
  const ChartMesh b = chart_mesh(l, mesh_size(0.5));
  ASSERT_EQ(a.nodes.size(), b.nodes.size());
  ASSERT_EQ(a.quads.size(), b.quads.size());
  for (std::size_t i = 0; i < a.nodes.size(); ++i) {
    EXPECT_EQ(a.nodes[i].s, b.nodes[i].s);
    EXPECT_EQ(a.nodes[i].theta, b.nodes[i].theta);
    EXPECT_EQ(a.nodes[i].hole, b.nodes[i].hole);
    EXPECT_EQ(a.nodes[i].xi, b.nodes[i].xi);
  }
  for (std::size_t i = 0; i < a.quads.size(); ++i) EXPECT_EQ(a.quads[i].nodes, b.quads[i].nodes);
}

TEST(ChartMesh, PlateWithoutHolesIsStructured) {
  for (const double inner : {10.0, 50.0}) {
    const WheelLayout l = flat_plate(inner, 100);
    const ChartMesh m = chart_mesh(l, mesh_size(1));
    expect_conforming(m);
    expect_covered_once(m, l.disc);
    expect_circles_on_grid(m, 0, 0, false);
    EXPECT_EQ(m.quads.size(), (m.circles.size() - 1) * m.n_theta);
    EXPECT_TRUE(m.flange_s.empty());
    EXPECT_EQ(m.n_theta % m.symmetry, 0);
    for (std::size_t c = 0; c + 1 < m.circles.size(); ++c) {
      const double r = inner + m.circles[c + 1], edge = m.circles[c + 1] - m.circles[c];
      // 1.25: whole cells of the first mesh
      EXPECT_LE(edge, 1.25 * std::min(8.0, 2 * 2 * pi * r / m.n_theta));
    }
  }
}

TEST(ChartMesh, PlateWithTwoRowsOfHolesNeedsNoHubFace) {
  WheelLayout l = flat_plate(20, 150);
  l.bolts = hole_circle(l.disc, "bolt hole", 4, 100, 14);
  l.vents = hole_circle(l.disc, "vent hole", 6, 200, 30);
  l.symmetry = 2;
  const ChartMesh m = chart_mesh(l, mesh_size(1));
  expect_conforming(m);
  expect_covered_once(m, l.disc);
  expect_invariant(m, pi, false);
  EXPECT_GE(worst_quality(m, l.disc), 0.35);
}

TEST(ChartMesh, MeetsNarrowLigaments) {
  // chords of 266 sin(pi / n) less the diameter 28: ligaments of 18.2, 13.6, 9.9 and 6.7 mm
  for (const int count : {18, 20, 22, 24}) {
    const WheelLayout l = pressed_disc(0, count);
    const ChartMesh m = chart_mesh(l, mesh_size(1));
    expect_conforming(m);
    EXPECT_GE(worst_quality(m, l.disc), 0.3) << count << " holes";
  }
}

TEST(ChartMesh, RingsMayReachIntoTheLastColumnOfTheHalfPitch) {
  // 84 divisions leave 3 columns to half a pitch; 11 mm from wall to mirror line, columns of 10 mm
  WheelLayout l = pressed_disc(3, 14);
  l.vents = hole_circle(l.disc, "vent hole", 14, 273, 38);
  const ChartMesh m = chart_mesh(l, mesh_size(0.5));
  EXPECT_EQ(m.n_theta, 84);
  expect_conforming(m);
  expect_covered_once(m, l.disc);
  EXPECT_GE(worst_quality(m, l.disc), 0.3);
}

TEST(ChartMesh, RingCellsKeepTheirShapeThroughTheThickness) {
  WheelLayout l = pressed_disc(5, 8);
  for (Hole &bolt : l.bolts) {  // cone seat from diameter 14 to 22 in the outer 40 % of the sheet
    bolt.cone_eta = 0.2;
    bolt.cone_radius = 11;
  }
  const ChartMesh m = chart_mesh(l, mesh_size(1));
  expect_conforming(m);
  for (const double eta : {-1.0, 0.2, 1.0}) {
    double worst = 1;
    for (const auto &q : m.quads) {
      if (q.hole < 0) continue;
      std::array<Vec2, 4> p;
      const int order[4] = {0, 1, 3, 2};
      for (int v = 0; v < 4; ++v) {
        const ChartNode &n = m.nodes[q.nodes[order[v]]];
        p[v] = ring_point(l.disc, m.holes[n.hole], m.rings[n.hole], m.nodes[q.nodes[0]].spoke,
                          v < 2 ? 0 : 1, n.xi, eta);
      }
      worst = std::min(worst, scaled_jacobian(p));
    }
    EXPECT_GE(worst, 0.6) << "eta " << eta;
  }
}
