// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that the 3D wheel mesh is sound, exact, joined by the weld alone, and correctly named.
#include "mesher/wheel_mesh.h"

#include <gtest/gtest.h>

#include <set>

#include "mesher/error.h"
#include "mesher/mesh_quality.h"
#include "tests/support/mesh_checks.h"
#include "tests/support/reference_wheel.h"

namespace felloe {
namespace {

class ReferenceWheel : public ::testing::Test {
 protected:
  static void SetUpTestSuite() {
    w = new WheelLayout(layout(reference_wheel()));
    m = new Mesh(wheel_mesh(*w, mesh_size(1)));
    faces = new FaceCount(count_faces(*m));
  }
  static void TearDownTestSuite() {
    delete faces;
    delete m;
    delete w;
  }
  static WheelLayout *w;
  static Mesh *m;
  static FaceCount *faces;
};
WheelLayout *ReferenceWheel::w;
Mesh *ReferenceWheel::m;
FaceCount *ReferenceWheel::faces;

TEST_F(ReferenceWheel, CellsAreWellShaped) {
  const MeshQuality q = mesh_quality(*m);
  EXPECT_GE(q.min_scaled_jacobian, 0.2);
  EXPECT_GT(q.min_jacobian_at_gauss_points, 0);
  // the fillet's toes are 45 degree corners: sin 45 deg; the disc and the rim do much better
  EXPECT_GE(part_quality(*m, Part::disc).min_scaled_jacobian, 0.35);
  EXPECT_GE(part_quality(*m, Part::rim).min_scaled_jacobian, 0.6);
  RecordProperty("cells", static_cast<int>(m->cells.size()));
  std::printf("cells %zu nodes %zu n_theta %d min SJ %.3f (disc %.3f, rim %.3f, weld %.3f)\n",
              m->cells.size(), m->nodes.size(), m->n_theta, q.min_scaled_jacobian,
              part_quality(*m, Part::disc).min_scaled_jacobian,
              part_quality(*m, Part::rim).min_scaled_jacobian,
              part_quality(*m, Part::weld).min_scaled_jacobian);
}

TEST_F(ReferenceWheel, VolumesAreExact) {
  const PartVolumes exact = exact_volumes(*w);
  const double disc = part_quality(*m, Part::disc).volume / exact.disc - 1,
               rim = part_quality(*m, Part::rim).volume / exact.rim - 1,
               weld = part_quality(*m, Part::weld).volume / exact.weld - 1;
  std::printf("volume errors: disc %.1e rim %.1e weld %.1e; mass %.2f kg\n", disc, rim, weld,
              exact.total() * 7.85e-6);
  EXPECT_LT(std::abs(disc), 3e-4);
  EXPECT_LT(std::abs(rim), 1e-4);
  EXPECT_LT(std::abs(weld), 1e-4);
  EXPECT_GT(exact.total() * 7.85e-6, 7);
  EXPECT_LT(exact.total() * 7.85e-6, 10);
}

TEST_F(ReferenceWheel, RefinementKeepsShapeAndConvergesInVolume) {
  const MeshQuality coarse = mesh_quality(*m), fine = mesh_quality(*m, 1);
  const double exact = exact_volumes(*w).total();
  EXPECT_GE(fine.min_scaled_jacobian, 0.95 * coarse.min_scaled_jacobian);
  EXPECT_GT(fine.min_jacobian_at_gauss_points, 0);
  std::printf("volume error %.1e -> %.1e, SJ %.3f -> %.3f\n", coarse.volume / exact - 1,
              fine.volume / exact - 1, coarse.min_scaled_jacobian, fine.min_scaled_jacobian);
  EXPECT_LT(std::abs(fine.volume - exact), 0.25 * std::abs(coarse.volume - exact));
}

TEST_F(ReferenceWheel, PushForwardReproducesEveryNode) {
  double worst = 0;
  for (int c = 0; c < static_cast<int>(m->cells.size()); c += 7)
    for (int n = 0; n < 27; ++n) {
      const Vec3 unit = {0.5 * (n % 3), 0.5 * (n / 3 % 3), 0.5 * (n / 9)};
      worst = std::max(worst, norm(subtract(m->position(c, unit), m->nodes[m->cells[c][n]])));
    }
  EXPECT_LT(worst, 1e-9);
}

TEST_F(ReferenceWheel, NeighboursAgreeOnTheirCommonFace) {
  // at quarter points, where no node holds them together: the same face seen from both cells
  std::map<std::array<int, 9>, std::vector<Vec3>> seen;
  double worst = 0;
  for (int c = 0; c < static_cast<int>(m->cells.size()); ++c)
    for (int f = 0; f < 6; ++f) {
      const auto nodes = face_nodes(*m, {c, f});
      auto key = nodes;
      std::sort(key.begin(), key.end());
      Vec3 unit = {0.5, 0.5, 0.5}, mean{};
      unit[f / 2] = f % 2;
      // four points symmetric in the face: their mean does not depend on the viewer
      for (const double x : {0.25, 0.75})
        for (const double y : {0.25, 0.75}) {
          unit[(f / 2 + 1) % 3] = x;
          unit[(f / 2 + 2) % 3] = y;
          mean = add(mean, scale(0.25, m->position(c, unit)));
        }
      auto &before = seen[key];
      if (!before.empty()) worst = std::max(worst, norm(subtract(before[0], mean)));
      before.push_back(mean);
    }
  EXPECT_LT(worst, 1e-9);
}

TEST_F(ReferenceWheel, IsOnePieceAndEveryInnerFaceJoinsTwoCells) {
  EXPECT_EQ(faces->most_cells, 2);
  EXPECT_EQ(count_pieces(*m), 1);
}

// Euler number of the boundary 2 (1 - genus). Disc, rim and the ring-shaped weld between them form
// one solid ring round the axis (genus 1) with one more handle for each hole through the disc.
TEST_F(ReferenceWheel, BoundaryHasOneHandleForEachHole) {
  std::set<int> vertices;
  std::set<std::pair<int, int>> edges;
  for (const auto &f : faces->boundary) {
    const auto n = face_nodes(*m, f);
    const int corner[4] = {n[0], n[2], n[8], n[6]};
    for (int i = 0; i < 4; ++i) {
      vertices.insert(corner[i]);
      edges.insert(std::minmax(corner[i], corner[(i + 1) % 4]));
    }
  }
  const int euler = static_cast<int>(vertices.size()) - static_cast<int>(edges.size()) +
                    static_cast<int>(faces->boundary.size());
  EXPECT_EQ(euler, 2 * (1 - (1 + 15)));
}

TEST_F(ReferenceWheel, BoundaryNormalsPointOutwards) {
  // integral of n dA over a closed surface vanishes; of x . n dA / 3 it is the volume
  const Vec3 closed = area_vector(*m, faces->boundary);
  EXPECT_LT(norm(closed), 1e-6);
  double flux = 0;
  for (const auto &f : faces->boundary) {
    const Vec3 centre = m->nodes[face_nodes(*m, f)[4]];
    flux += dot(area_vector(*m, f), centre) / 3;
  }
  EXPECT_NEAR(flux / exact_volumes(*w).total(), 1, 0.01);
}

TEST_F(ReferenceWheel, PressFitPairsCoincideAndOnlyTheRootIsShared) {
  ASSERT_FALSE(m->press_fit.empty());
  std::set<int> seen;
  for (const auto &p : m->press_fit) {
    EXPECT_LT(norm(subtract(m->nodes[p.disc_node], m->nodes[p.rim_node])), 1e-9);
    EXPECT_EQ(m->node_parts[p.disc_node], Part::disc);
    EXPECT_EQ(m->node_parts[p.rim_node], Part::rim);
    EXPECT_TRUE(seen.insert(p.disc_node).second);
    EXPECT_TRUE(seen.insert(p.rim_node).second);
  }
  // all nodes of the overlap but those of the root
  std::vector<int> overlap = surface_nodes(*m, "flange overlap disc");
  EXPECT_EQ(overlap.size(), m->press_fit.size() + m->lines.at("weld root").size());
  const std::vector<int> rim = surface_nodes(*m, "flange overlap rim");
  std::vector<int> common;
  std::set_intersection(overlap.begin(), overlap.end(), rim.begin(), rim.end(),
                        std::back_inserter(common));
  std::vector<int> root = m->lines.at("weld root");
  std::sort(root.begin(), root.end());
  EXPECT_EQ(common, root);
}

TEST_F(ReferenceWheel, MapsOntoItselfUnderTheTurn) {
  ASSERT_EQ(m->symmetry, 5);
  ASSERT_EQ(m->turned.size(), m->nodes.size());
  std::vector<int> sorted = m->turned;
  std::sort(sorted.begin(), sorted.end());
  for (int k = 0; k < static_cast<int>(sorted.size()); ++k) ASSERT_EQ(sorted[k], k);
  const double c = std::cos(2 * pi / 5), s = std::sin(2 * pi / 5);
  double worst = 0;
  for (std::size_t k = 0; k < m->nodes.size(); ++k) {
    const Vec3 &p = m->nodes[k];
    const Vec3 turned = {c * p[0] - s * p[1], s * p[0] + c * p[1], p[2]};
    worst = std::max(worst, norm(subtract(m->nodes[m->turned[k]], turned)));
    ASSERT_EQ(m->node_parts[k], m->node_parts[m->turned[k]]);
  }
  EXPECT_LT(worst, 1e-9);
}

TEST_F(ReferenceWheel, NamedSurfacesLieOnTheBoundary) {
  std::set<std::pair<int, int>> boundary;
  for (const auto &f : faces->boundary) boundary.insert({f.cell, f.face});
  std::vector<std::string> names = {"hub face",
                                    "bore",
                                    "disc outboard side",
                                    "disc inboard side",
                                    "flange overlap disc",
                                    "flange overlap rim",
                                    "weld face",
                                    "rim tyre side",
                                    "rim inner side",
                                    "bead seat outboard",
                                    "bead seat inboard",
                                    "flange outboard",
                                    "flange inboard",
                                    "well"};
  for (int k = 1; k <= 5; ++k)
    for (const char *what : {"bolt hole ", "bolt seat "}) names.push_back(what + std::to_string(k));
  for (int k = 1; k <= 10; ++k) names.push_back("vent hole " + std::to_string(k));
  for (const auto &name : names) {
    ASSERT_TRUE(m->surfaces.count(name)) << name;
    std::set<std::pair<int, int>> once;
    for (const auto &f : m->surfaces.at(name)) {
      EXPECT_TRUE(boundary.count({f.cell, f.face})) << name;
      EXPECT_TRUE(once.insert({f.cell, f.face}).second) << name;
    }
  }
  EXPECT_EQ(m->surfaces.size(), names.size());
}

TEST_F(ReferenceWheel, SurfacesHaveTheirExactAreas) {
  const auto of = [&](const std::string &name) { return area(*m, m->surfaces.at(name)); };
  // plane ring minus five round holes
  EXPECT_NEAR(of("hub face"), pi * (71.0 * 71 - 28.5 * 28.5 - 5 * 49.0), 1);
  EXPECT_NEAR(of("bore"), 2 * pi * 28.5 * 3.8, 1);
  // cylinder r 170.3 over the overlap
  const double overlap = 2 * pi * 170.3 * (w->disc.length() - w->flange_s0);
  EXPECT_NEAR(of("flange overlap disc") / overlap, 1, 1e-3);
  EXPECT_NEAR(of("flange overlap rim") / overlap, 1, 1e-3);
  // cone frustum from radius 7 to 8.25, half angle 30 degrees: slant (8.25 - 7) / sin 30 deg
  EXPECT_NEAR(of("bolt seat 1") / (pi * (7 + 8.25) * 2.5), 1, 1e-3);
  EXPECT_NEAR(of("bolt hole 1") / (2 * pi * 7 * (3.8 - 1.25 / std::tan(pi / 6))), 1, 1e-3);
  EXPECT_NEAR(of("vent hole 1") / (2 * pi * 14 * 3.8), 1, 1e-3);
}

TEST_F(ReferenceWheel, SurfaceNormalsPointTheRightWay) {
  const auto axial = [&](const std::string &name) {
    return area_vector(*m, m->surfaces.at(name))[2] / area(*m, m->surfaces.at(name));
  };
  EXPECT_NEAR(axial("hub face"), -1, 1e-9);
  EXPECT_NEAR(axial("bolt seat 2"), std::sin(pi / 6), 1e-3);  // cone opens outboard
  EXPECT_LT(axial("weld face"), -0.5);
  const auto radial = [&](const std::string &name) {
    double sum = 0;
    for (const auto &f : m->surfaces.at(name)) {
      const Vec3 p = m->nodes[face_nodes(*m, f)[4]], a = area_vector(*m, f);
      sum += (p[0] * a[0] + p[1] * a[1]) / std::hypot(p[0], p[1]);
    }
    return sum / area(*m, m->surfaces.at(name));
  };
  EXPECT_NEAR(radial("bore"), -1, 1e-2);
  EXPECT_NEAR(radial("well"), 1, 1e-2);
  EXPECT_NEAR(radial("bead seat outboard"), std::cos(5 * pi / 180), 1e-2);
  EXPECT_NEAR(radial("flange overlap rim"), -1, 1e-2);
}

TEST_F(ReferenceWheel, HoleWallsAreTrueCylindersAndCones) {
  for (const auto &holes : {w->bolts, w->vents})
    for (const auto &h : holes) {
      const bool bolt = &h >= &holes.front() && h.name[0] == 'b';
      const std::string number = h.name.substr(h.name.rfind(' '));
      const Vec3 centre = w->disc.position(h.s, h.theta, 0), axis = w->disc.normal(h.s, h.theta);
      const auto radius_at = [&](int node) {
        const Vec3 d = subtract(m->nodes[node], centre);
        return norm(subtract(d, scale(dot(d, axis), axis)));
      };
      for (const int k : surface_nodes(*m, (bolt ? "bolt hole" : "vent hole") + number))
        EXPECT_NEAR(radius_at(k), h.radius, 1e-9);
      if (!bolt) continue;
      for (const int k : surface_nodes(*m, "bolt seat" + number))
        EXPECT_NEAR(radius_at(k), h.wall_radius(m->node_points[k].eta), 1e-9);
      for (const int k : m->lines.at("bolt edge outboard" + number))
        EXPECT_NEAR(radius_at(k), 8.25, 1e-9);
    }
}

TEST_F(ReferenceWheel, LinesRunInOrderRoundTheirCircle) {
  const auto length = [&](const std::string &name) {
    const auto &l = m->lines.at(name);
    double sum = 0;
    for (std::size_t i = 0; i < l.size(); ++i)
      sum += norm(subtract(m->nodes[l[(i + 1) % l.size()]], m->nodes[l[i]]));
    return sum;
  };
  const double toe_r = 170.3 - 3.8;
  EXPECT_NEAR(length("weld toe disc") / (2 * pi * toe_r), 1, 1e-3);
  EXPECT_NEAR(length("weld toe rim") / (2 * pi * 170.3), 1, 1e-3);
  EXPECT_NEAR(length("weld root") / (2 * pi * 170.3), 1, 1e-3);
  EXPECT_NEAR(length("hub face border") / (2 * pi * 71), 1, 1e-3);
  EXPECT_NEAR(length("bolt edge inboard 3") / (2 * pi * 7), 1, 1e-2);
  EXPECT_NEAR(length("bolt edge outboard 5") / (2 * pi * 8.25), 1, 1e-2);
  EXPECT_NEAR(length("vent edge outboard 10") / (2 * pi * 14), 1, 2e-2);
  EXPECT_NEAR(length("vent edge inboard 1") / (2 * pi * 14), 1, 2e-2);
  const auto &first = m->lines.at("weld root");
  EXPECT_EQ(static_cast<int>(first.size()), 2 * m->n_theta);
}

TEST_F(ReferenceWheel, NodesKnowTheirPlaceOnTheSheet) {
  for (int c = 0; c < static_cast<int>(m->cells.size()); c += 11) {
    if (m->parts[c] == Part::weld) continue;
    const Sheet &sheet = m->parts[c] == Part::disc ? w->disc : w->rim;
    for (const int k : m->cells[c]) {
      if (m->node_parts[k] != m->parts[c]) continue;
      const Vec2 rz = sheet.section_point(m->node_points[k].s, m->node_points[k].eta);
      EXPECT_NEAR(std::hypot(m->nodes[k][0], m->nodes[k][1]), rz[0], 1e-9);
      EXPECT_NEAR(m->nodes[k][2], rz[1], 1e-9);
    }
  }
}

/// Sound for any wheel: quality, volume (both checked inside wheel_mesh), joints, closed boundary.

}  // namespace
}  // namespace felloe
