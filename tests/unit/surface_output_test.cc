// SPDX-License-Identifier: GPL-3.0-or-later
// Surfaces, turns and rated points survive the way through a file.
#include "post/surface_output.h"

#include <gtest/gtest.h>

#include <cmath>

#include "mesher/error.h"
#include "post/skin.h"
#include "post/surface_input.h"
#include "tests/support/scratch_folder.h"
#include "tests/support/simple_wheel.h"

namespace felloe {
namespace {

double area_of(const std::vector<Vec3> &points, const std::vector<std::vector<int>> &quads) {
  double area = 0;
  for (const auto &q : quads) {
    const Vec3 across = subtract(points[q[2]], points[q[0]]),
               other = subtract(points[q[3]], points[q[1]]);
    area += norm(cross(across, other)) / 2;
  }
  return area;
}

// A ring of n cells becomes a prism of 2 n flat pieces a turn: r 40 ... 60, z 0 ... 5. Its side
// walls measure 2 n times their chords 2 r sin(pi / 2n), its ends the rings between the polygons.
TEST(SurfaceFile, HoldsTheOuterSurfaceAndItsValues) {
  const test::ScratchFolder folder;
  const int n = 12;
  const Mesh mesh = test::ring(n);
  const SurfaceQuads surface = surface_quads(mesh, boundary_faces(mesh), true);
  PointField field{field_names::displacement, 3, {}};
  for (const int node : surface.nodes)
    for (const double x : mesh.nodes[node]) field.values.push_back(2 * x);
  SurfaceFiles(mesh, surface)
      .write(folder.file("a.vtp"), {field}, {{"rig test", "cornering & more"}});
  const StoredSurface stored = read_surface(folder.file("a.vtp"));
  const double half = pi / (2 * n);
  const double walls = 4 * n * std::sin(half) * (40 + 60) * 5;
  const double ends = 2 * 2 * n * std::sin(half) * std::cos(half) * (60 * 60 - 40 * 40);
  EXPECT_NEAR(area_of(stored.points, stored.quads), walls + ends, 1e-5 * (walls + ends));
  ASSERT_EQ(stored.point_fields.size(), 1U);
  for (std::size_t i = 0; i < stored.points.size(); ++i)
    for (int c = 0; c < 3; ++c)
      EXPECT_NEAR(stored.point_fields[0].values[3 * i + c], 2 * stored.points[i][c], 1e-5);
  EXPECT_EQ(stored.coloured_by, "");  // a vector has no colour of its own
  EXPECT_EQ(stored.about.at("rig test"), std::vector<std::string>{"cornering & more"});
  EXPECT_EQ(stored.about.at("part names"), (std::vector<std::string>{"disc", "rim", "weld"}));
}

TEST(SurfaceFile, EveryFileHasItsOwnFieldsAndTexts) {
  const test::ScratchFolder folder;
  const Mesh mesh = test::ring();
  const SurfaceQuads surface = surface_quads(mesh, boundary_faces(mesh), false);
  const SurfaceFiles files(mesh, surface);
  const std::vector<double> values(surface.nodes.size(), 1);
  files.write(folder.file("a.vtp"), {{"first", 1, values}}, {{"rig test", "cornering"}});
  files.write(folder.file("b.vtp"), {{"second", 1, values}}, {});
  const StoredSurface second = read_surface(folder.file("b.vtp"));
  ASSERT_EQ(second.point_fields.size(), 1U);
  EXPECT_EQ(second.point_fields[0].name, "second");
  EXPECT_EQ(second.coloured_by, "second");
  EXPECT_EQ(second.about.count("rig test"), 0U);
  EXPECT_EQ(second.about.count("part names"), 1U);
}

TEST(SurfaceQuads, CoarseOnesStandOnTheCorners) {
  const Mesh mesh = test::ring(12);
  const auto faces = boundary_faces(mesh);
  const SurfaceQuads fine = surface_quads(mesh, faces, true),
                     coarse = surface_quads(mesh, faces, false);
  EXPECT_EQ(fine.quads.size(), 4 * faces.size());
  EXPECT_EQ(coarse.quads.size(), faces.size());
  EXPECT_EQ(fine.nodes.size(), fine.quads.size());  // a closed surface of genus 1 (Euler)
  EXPECT_EQ(coarse.nodes.size(), coarse.quads.size());
}

TEST(SurfaceFile, AFieldOfTheWrongLengthIsRefusedAndAFullDiskIsAnError) {
  const Mesh mesh = test::ring();
  const SurfaceQuads surface = surface_quads(mesh, boundary_faces(mesh), false);
  const test::ScratchFolder folder;
  EXPECT_THROW(SurfaceFiles(mesh, surface).write(folder.file("a.vtp"), {{"short", 1, {1, 2}}}),
               std::logic_error);
  EXPECT_EQ(test::n_files(folder.path()), 0);
  EXPECT_THROW(SurfaceFiles(mesh, surface).write("/dev/full", {}), Error);
  EXPECT_THROW(read_surface(folder.file("none.vtp")), Error);
}

TEST(HotSpotFile, HoldsPlacesLabelsAndFigures) {
  const test::ScratchFolder folder;
  HotSpot worst, safe;
  worst.id = 1;
  worst.feature = "vent edge";
  worst.test = "cornering";
  worst.position = {136, 2, 14};
  worst.amplitude = 181.6;
  worst.error_percent = 1.7;
  worst.life_design = 2e5;
  worst.verdict = Verdict::fail;
  safe.id = 2;
  safe.feature = "rim well";
  safe.life_design = HUGE_VAL;
  safe.verdict = Verdict::pass;
  write_hot_spots(folder.file("hot_spots.vtp"), {worst, safe});
  const StoredSurface stored = read_surface(folder.file("hot_spots.vtp"));
  EXPECT_EQ(stored.coloured_by, field_names::stress_amplitude);
  EXPECT_EQ(stored.points, (std::vector<Vec3>{{136, 2, 14}, {0, 0, 0}}));
  EXPECT_EQ(stored.point_texts.at("label"),
            (std::vector<std::string>{"1 vent edge: 182 MPa, FAIL", "2 rim well: 0 MPa, PASS"}));
  EXPECT_EQ(stored.point_texts.at("verdict"), (std::vector<std::string>{"fail", "pass"}));
  for (const PointField &field : stored.point_fields) {
    if (field.name == field_names::life) {
      EXPECT_EQ(field.values, (std::vector<double>{2e5, float(infinite_life_in_fields)}));
    }
    if (field.name == field_names::stress_error) {
      EXPECT_FLOAT_EQ(float(field.values[0]), 1.7F);
      EXPECT_TRUE(std::isnan(field.values[1]));  // not estimated
    }
  }
}

TEST(Blocks, AreReadUnderTheirNames) {
  const test::ScratchFolder folder;
  const Mesh mesh = test::ring();
  const SurfaceQuads surface = surface_quads(mesh, boundary_faces(mesh), false);
  SurfaceFiles(mesh, surface).write(folder.file("disc.vtp"), {});
  write_hot_spots(folder.file("spots.vtp"), {HotSpot()});
  write_blocks(folder.file("a.vtm"), {{0, "disc.vtp", "disc"}, {0, "spots.vtp", "hot spots"}});
  const auto blocks = read_blocks(folder.file("a.vtm"));
  ASSERT_EQ(blocks.size(), 2U);
  EXPECT_EQ(blocks[0].first, "disc");
  EXPECT_EQ(blocks[0].second.quads.size(), surface.quads.size());
  EXPECT_EQ(blocks[1].first, "hot spots");
  EXPECT_EQ(blocks[1].second.points.size(), 1U);
}

}  // namespace
}  // namespace felloe
