// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that meshes of a density and of half of it are nested: every cell along the sheets is cut
// in four, every node of the coarse mesh is one of the fine mesh, on disc and rim alike.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <tuple>

#include "mesher/mesh_quality.h"
#include "mesher/stations.h"
#include "mesher/wheel_mesh.h"
#include "tests/mesh/chart_layouts.h"
#include "tests/support/reference_wheel.h"

namespace felloe {
namespace {

/// Nodes on a grid of 1e-5 mm, each with its neighbours of the grid, so that rounding cannot hide
/// one.
class Places {
 public:
  explicit Places(const Mesh &mesh) {
    for (const Vec3 &p : mesh.nodes) at_.insert(key(p, 0, 0, 0));
  }
  bool has(const Vec3 &p) const {
    for (int i = -1; i <= 1; ++i)
      for (int j = -1; j <= 1; ++j)
        for (int k = -1; k <= 1; ++k)
          if (at_.count(key(p, i, j, k))) return true;
    return false;
  }

 private:
  using Key = std::tuple<long, long, long>;
  static Key key(const Vec3 &p, int i, int j, int k) {
    return {std::lround(p[0] * 1e5) + i, std::lround(p[1] * 1e5) + j, std::lround(p[2] * 1e5) + k};
  }
  std::set<Key> at_;
};

int cells_of(const Mesh &m, Part part) {
  return static_cast<int>(std::count(m.parts.begin(), m.parts.end(), part));
}

void expect_nested(const Wheel &wheel, double density) {
  const WheelLayout w = layout(wheel);
  const Mesh coarse = wheel_mesh(w, mesh_size(density / 2)),
             fine = wheel_mesh(w, mesh_size(density));
  EXPECT_EQ(fine.n_theta, 2 * coarse.n_theta);
  EXPECT_EQ(fine.symmetry, coarse.symmetry);
  EXPECT_EQ(fine.turned.size(), fine.nodes.size());
  EXPECT_EQ(cells_of(fine, Part::disc), 4 * cells_of(coarse, Part::disc));
  // the fillet's section stays; so do the rim's two cells along its leg
  EXPECT_EQ(cells_of(fine, Part::weld), 2 * cells_of(coarse, Part::weld));
  const int leg = 2 * coarse.n_theta;
  EXPECT_EQ(cells_of(fine, Part::rim) - 2 * leg, 4 * (cells_of(coarse, Part::rim) - leg));
  const Places places(fine);
  int missing = 0;
  for (const Vec3 &p : coarse.nodes) missing += !places.has(p);
  EXPECT_EQ(missing, 0);
}

TEST(NestedMeshes, ContainEachOthersNodes) { expect_nested(reference_wheel(), 1); }

TEST(NestedMeshes, ContainEachOthersNodesBetweenTheStandardDensities) {
  expect_nested(reference_wheel(), 1.3);
}

// vents beside the grid: sheared bands, and counts without a common divisor: whole pitches
TEST(NestedMeshes, ContainEachOthersNodesWithTurnedVents) {
  Wheel w = reference_wheel();
  w.vents.count = 8;
  w.vents.phase = 6;
  const WheelLayout l = layout(w);
  const Mesh coarse = wheel_mesh(l, mesh_size(0.5)), fine = wheel_mesh(l, mesh_size(1));
  const Places places(fine);
  int missing = 0;
  for (const Vec3 &p : coarse.nodes) missing += !places.has(p);
  EXPECT_EQ(missing, 0);
}

TEST(NestedMeshes, SectionHasTheCirclesOfTheWheel) {
  const WheelLayout w = layout(reference_wheel_without_holes());
  for (const double density : {0.5, 1.0, 2.0}) {
    const MeshSize size = mesh_size(density);
    const std::vector<double> circles = chart_mesh(w, size).circles;
    const DiscStations section = disc_stations(w, size);
    ASSERT_EQ(section.s.size(), circles.size());
    for (std::size_t i = 0; i < circles.size(); ++i) EXPECT_NEAR(section.s[i], circles[i], 1e-9);
  }
}

TEST(NestedMeshes, KeepTheirShape) {
  for (const double density : {0.4, 0.5, 0.79, 0.8, 1.0, 1.4, 2.0})
    EXPECT_GE(
        mesh_quality(wheel_mesh(layout(reference_wheel()), mesh_size(density))).min_scaled_jacobian,
        0.5)
        << density;
}

}  // namespace
}  // namespace felloe
