// SPDX-License-Identifier: GPL-3.0-or-later
// The piece of surface in a page is the whole surface once turned round, closed, and keeps the
// nodes that matter.
#include "post/surface_piece.h"

#include <gtest/gtest.h>

#include <map>
#include <set>

#include "tests/support/simple_wheel.h"

namespace felloe {
namespace {

constexpr std::size_t any = 1000000;

/// Ring r 40 ... 60, z 0 ... 5 of 12 cells round, that knows its sixfold symmetry.
Mesh symmetric_ring() {
  Mesh mesh = test::ring(12);
  mesh.symmetry = 6;
  const int n = static_cast<int>(mesh.nodes.size());
  for (int i = 0; i < n; ++i) mesh.turned.push_back((i + n / 6) % n);
  for (int i = 0; i < n; ++i) {
    const Vec3 &x = mesh.nodes[i], &y = mesh.nodes[mesh.turned[i]];
    const double c = std::cos(pi / 3), s = std::sin(pi / 3);
    EXPECT_NEAR(norm(subtract(y, {c * x[0] - s * x[1], s * x[0] + c * x[1], x[2]})), 0, 1e-9);
  }
  return mesh;
}

Vec3 turned(const Vec3 &x, double angle) {
  return {std::cos(angle) * x[0] - std::sin(angle) * x[1],
          std::sin(angle) * x[0] + std::cos(angle) * x[1], x[2]};
}

using Corner = std::array<long, 3>;  // rounded to 1e-6 mm

/// All triangles of all sectors.
std::vector<std::array<Vec3, 3>> whole(const Mesh &mesh, const SurfacePiece &piece) {
  std::vector<std::array<Vec3, 3>> all;
  for (int s = 0; s < piece.sectors; ++s)
    for (const auto &t : piece.triangles) {
      std::array<Vec3, 3> corners;
      for (int i = 0; i < 3; ++i)
        corners[i] = turned(mesh.nodes[piece.nodes[t[i]]], 2 * pi * s / piece.sectors);
      all.push_back(corners);
    }
  return all;
}

/// Every edge is passed once in either direction: no gap, no overlap, all turned alike.
bool closed(const std::vector<std::array<Vec3, 3>> &triangles) {
  const auto corner = [](const Vec3 &x) {
    return Corner{std::lround(1e6 * x[0]), std::lround(1e6 * x[1]), std::lround(1e6 * x[2])};
  };
  std::map<std::pair<Corner, Corner>, int> passed;
  for (const auto &t : triangles)
    for (int i = 0; i < 3; ++i) ++passed[{corner(t[i]), corner(t[(i + 1) % 3])}];
  for (const auto &[edge, times] : passed)
    if (times != 1 || passed.count({edge.second, edge.first}) == 0) return false;
  return true;
}

double volume(const std::vector<std::array<Vec3, 3>> &triangles) {
  double sum = 0;
  for (const auto &t : triangles) sum += dot(t[0], cross(t[1], t[2])) / 6;
  return sum;
}

/// Ring of regular polygons of n corners.
double polygon_ring(int n) { return 0.5 * n * std::sin(2 * pi / n) * (60 * 60 - 40 * 40) * 5; }

TEST(SurfacePiece, OneSectorStandsForAllWhereFieldsRepeat) {
  const Mesh mesh = symmetric_ring();
  const std::vector<double> even(mesh.nodes.size(), 7);
  const SurfacePiece piece = surface_piece(mesh, {&even}, {}, any);
  EXPECT_EQ(piece.sectors, 6);
  // a section of 2 x 1 cells has 6 outer sides; 2 cells round; eight triangles a face
  EXPECT_EQ(piece.triangles.size(), 2u * 6 * 8);
  ASSERT_EQ(piece.middles.size(), piece.triangles.size());
  for (std::size_t t = 0; t < piece.triangles.size(); ++t)  // fans round the middles of faces
    EXPECT_EQ(piece.nodes[piece.triangles[t][0]], piece.middles[t]);
  EXPECT_TRUE(closed(whole(mesh, piece)));
  EXPECT_NEAR(volume(whole(mesh, piece)) / polygon_ring(24), 1, 1e-9);
}

TEST(SurfacePiece, AFieldThatDoesNotRepeatNeedsTheWholeSurface) {
  const Mesh mesh = symmetric_ring();
  std::vector<double> even(mesh.nodes.size(), 7), odd = even;
  odd[0] = 8;
  const SurfacePiece piece = surface_piece(mesh, {&even, &odd}, {}, any);
  EXPECT_EQ(piece.sectors, 1);
  EXPECT_TRUE(closed(whole(mesh, piece)));
  EXPECT_NEAR(volume(whole(mesh, piece)) / polygon_ring(24), 1, 1e-9);
}

TEST(SurfacePiece, LargeSurfacesKeepCornersAndTheNodesNeeded) {
  const Mesh mesh = symmetric_ring();
  const std::vector<double> even(mesh.nodes.size(), 7);
  const SurfacePiece corners = surface_piece(mesh, {&even}, {}, 0);
  EXPECT_EQ(corners.triangles.size(), 2u * 6 * 2);
  EXPECT_TRUE(closed(whole(mesh, corners)));
  EXPECT_NEAR(volume(whole(mesh, corners)) / polygon_ring(12), 1, 1e-9);

  // Nodes in the middle of an edge and of a face, in another sector than the first.
  std::vector<int> needed;
  for (const Vec3 &wanted : {turned({60, 0, 5}, 15 * pi / 180 + pi), turned({50, 0, 0}, pi / 12)})
    for (int n = 0; n < int(mesh.nodes.size()); ++n)
      if (norm(subtract(mesh.nodes[n], wanted)) < 1e-9) needed.push_back(n);
  ASSERT_EQ(needed.size(), 2u);
  const SurfacePiece piece = surface_piece(mesh, {&even}, needed, 0);
  EXPECT_TRUE(closed(whole(mesh, piece)));
  for (const int node : needed) {
    bool found = false;
    for (int s = 0; s < piece.sectors; ++s)
      for (const int n : piece.nodes)
        found = found || norm(subtract(turned(mesh.nodes[n], s * pi / 3), mesh.nodes[node])) < 1e-9;
    EXPECT_TRUE(found);
  }
}

// A rectangular section has four sharp edges round: every one of their nodes is two points.
TEST(SurfacePiece, SharpEdgesKeepTwoNormals) {
  const Mesh mesh = symmetric_ring();
  const SurfacePiece piece = surface_piece(mesh, {}, {}, any);
  std::map<int, int> points;
  for (const int node : piece.nodes) ++points[node];
  int doubled = 0;
  for (const auto &[node, count] : points) {
    const Vec3 &x = mesh.nodes[node];
    const double r = std::hypot(x[0], x[1]);
    const bool on_edge = (std::abs(r - 40) < 1e-9 || std::abs(r - 60) < 1e-9) &&
                         (std::abs(x[2]) < 1e-9 || std::abs(x[2] - 5) < 1e-9);
    EXPECT_EQ(count, on_edge ? 2 : 1);
    doubled += count == 2;
  }
  EXPECT_EQ(doubled, 4 * 5);  // 2 cells round: five nodes
  EXPECT_EQ(piece.sharp_edges.size(), 4u * 24);
}

}  // namespace
}  // namespace felloe
