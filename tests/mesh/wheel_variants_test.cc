// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that wheels and plates of many kinds mesh soundly, and that the quality gate speaks.
#include "mesher/wheel_mesh.h"

#include <gtest/gtest.h>

#include <set>

#include "mesher/error.h"
#include "mesher/mesh_quality.h"
#include "tests/support/mesh_checks.h"
#include "tests/support/reference_wheel.h"

namespace felloe {
namespace {

void expect_sound(const Wheel &wheel, double density) {
  const WheelLayout w = layout(wheel);
  const Mesh m = wheel_mesh(w, mesh_size(density));
  const FaceCount faces = count_faces(m);
  EXPECT_EQ(faces.most_cells, 2);
  EXPECT_EQ(count_pieces(m), 1);
  EXPECT_LT(norm(area_vector(m, faces.boundary)), 1e-6);
  EXPECT_NEAR(mesh_quality(m).volume / exact_volumes(w).total(), 1, 1e-3);
  if (m.symmetry > 1) {
    EXPECT_EQ(m.turned.size(), m.nodes.size());
  }
}

TEST(WheelMesh, IsSoundWithoutHoles) { expect_sound(reference_wheel_without_holes(), 1); }

TEST(WheelMesh, IsSoundWithFiveBoltsAndEightVents) {
  Wheel w = reference_wheel();
  w.vents.count = 8;
  expect_sound(w, 0.75);
}

TEST(WheelMesh, IsSoundWithFlatSeatsTurnedVentsAndThinning) {
  Wheel w = reference_wheel();
  w.bolts.seat_cone_angle = 0;
  w.vents.phase = 18;
  w.disc.thickness = {{0, 3.8}, {60, 3.4}, {140, 3.5}};
  expect_sound(w, 0.75);
  const Mesh m = wheel_mesh(layout(w), mesh_size(0.75));
  EXPECT_GT(area(m, m.surfaces.at("bolt seat 1")), pi * (8.25 * 8.25 - 49));
}

TEST(WheelMesh, IsSoundAtHalfAndDoubleLegs) {
  Wheel w = reference_wheel_without_holes();
  w.weld.leg = 2.4;
  expect_sound(w, 1);
  w.weld.leg = 7.5;
  expect_sound(w, 1);
}

TEST(WheelMesh, FlatPlateHasItsElementaryVolumeAndOuterEdge) {
  const WheelLayout w = layout(flat_plate(60, 300, 4));
  const Mesh m = wheel_mesh(w, mesh_size(1));
  EXPECT_NEAR(mesh_quality(m).volume / (pi * (22500 - 900) * 4), 1, 1e-5);
  EXPECT_NEAR(area(m, m.surfaces.at("outer edge")) / (2 * pi * 150 * 4), 1, 1e-3);
  for (const int k : m.lines.at("outer edge mid-line")) {
    EXPECT_NEAR(std::hypot(m.nodes[k][0], m.nodes[k][1]), 150, 1e-9);
    EXPECT_NEAR(m.nodes[k][2], 2, 1e-9);
  }
  EXPECT_TRUE(m.press_fit.empty());
  EXPECT_EQ(count_pieces(m), 1);
}

TEST(WheelMesh, IsSoundAsAPlateWithBoltsAlone) {
  Wheel wheel = flat_plate(57, 300, 4);
  wheel.disc.hub_face_diameter = 160;
  wheel.bolts = {5, 112, 14, 60, 16.5};
  expect_sound(wheel, 1);
  MeshSize size = mesh_size(1);
  size.disc_layers = 1;  // the seat cone asks for a second layer
  const Mesh m = wheel_mesh(layout(wheel), size);
  EXPECT_GT(area(m, m.surfaces.at("bolt seat 1")), 0);
  EXPECT_GT(area(m, m.surfaces.at("bolt hole 1")), 0);
}

TEST(WheelMesh, IsSoundAsAPlateWithVentsAlone) {
  Wheel wheel = flat_plate(60, 300, 4);
  wheel.vents = {6, 200, 40, 10};
  expect_sound(wheel, 1);
}

// The second demo's kind: 16 x 6 1/2 J, four bolts, eight vents.
TEST(WheelMesh, IsSoundOnASixteenInchRimWithFourBolts) {
  Wheel w = reference_wheel();
  w.rim = {"J", 16, 6.5, 2.8, 38};
  w.bolts = {4, 108, 15, 60, 18};
  w.disc.thickness = {{0, 4.2}, {40, 4.2}, {70, 3.8}, {150, 4.0}};
  w.disc.meridian[2].z = 8;
  w.disc.meridian[3].z = -15;
  w.vents = {8, 285, 34, 22.5};
  w.weld.leg = 4;
  expect_sound(w, 1);
}

// A fillet drawn out to a sliver: its toe angle is atan(3.8 / 30), a scaled Jacobian of 0.13.
TEST(WheelMesh, GateNamesThePartThatFails) {
  WheelLayout w = layout(reference_wheel_without_holes());
  w.rim_weld_toe_s = w.rim_weld_root_s + 30;
  try {
    wheel_mesh(w, mesh_size(1));
    FAIL() << "accepted";
  } catch (const Error &e) {
    const std::string text = e.what();
    EXPECT_NE(text.find("mesh of the weld: its worst cell"), std::string::npos) << text;
    EXPECT_NE(text.find("at least 0.20 is needed"), std::string::npos) << text;
  }
}

TEST(WheelMesh, SameInputGivesTheSameMesh) {
  const WheelLayout w = layout(reference_wheel());
  const Mesh a = wheel_mesh(w, mesh_size(0.75)), b = wheel_mesh(w, mesh_size(0.75));
  EXPECT_EQ(a.cells, b.cells);
  ASSERT_EQ(a.nodes.size(), b.nodes.size());
  EXPECT_TRUE(a.nodes == b.nodes);
}

}  // namespace
}  // namespace felloe
