// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that a press fit acts on disc and rim before the weld is laid: the weld leaves no trace in
// its stress.
#include "mesher/unwelded.h"

#include <gtest/gtest.h>

#include <cmath>

#include "mesher/error.h"
#include "solver/harmonic_loads.h"
#include "tests/support/revolve.h"
#include "tests/support/section_block.h"
#include "tests/support/steel.h"

namespace felloe {
namespace {

/// A disc flange inside a rim, paired on the whole overlap.
SectionMesh pressed_rings() {
  SectionMesh mesh = test::rectangle(160, 164, 0, 20, 2, 4, Part::disc, "disc ");
  test::append(mesh, test::rectangle(164, 167, 0, 20, 2, 4, Part::rim, "rim "));
  test::pair_up(mesh, "disc outer", "rim inner");
  return mesh;
}

/// The same with a weld cell under the flange end; disc and rim share the node at the weld root.
SectionMesh welded_rings() {
  SectionMesh mesh = pressed_rings();
  const PressFitPair root = mesh.press_fit.front();
  mesh.press_fit.erase(mesh.press_fit.begin());
  for (std::size_t c = 0; c < mesh.cells.size(); ++c)
    for (int &node : mesh.cells[c])
      if (node == root.rim_node) node = root.disc_node;
  mesh.points["weld root"] = root.disc_node;
  // Three nodes under the end of the flange, in place of the rim's unused one and behind the last.
  const auto add_node = [&](double r, double z) {
    mesh.nodes.push_back({r, z});
    mesh.node_parts.push_back(Part::weld);
    return int(mesh.nodes.size()) - 1;
  };
  mesh.nodes[root.rim_node] = {164, -3};
  mesh.node_parts[root.rim_node] = Part::weld;
  std::array<int, 9> cell{};
  for (int i = 0; i < 3; ++i) {
    cell[i] = i == 2 ? root.rim_node : add_node(162 + i, -3);
    cell[3 + i] = add_node(162 + i, -1.5);
    cell[6 + i] = test::node_at(mesh, 162 + i, 0);
  }
  cell[8] = root.disc_node;
  mesh.edges["weld face"] = {{int(mesh.cells.size()), 2}};
  mesh.cells.push_back(cell);
  mesh.parts.push_back(Part::weld);
  return mesh;
}

const std::map<Part, Material> all_steel{
    {Part::disc, test::steel()}, {Part::rim, test::steel()}, {Part::weld, test::steel()}};

TEST(Unwelded, SectionLosesTheWeldAndSplitsTheRoot) {
  const SectionMesh welded = welded_rings();
  const UnweldedSection before = unwelded(welded);
  const SectionMesh plain = pressed_rings();
  EXPECT_EQ(before.mesh.nodes.size(), plain.nodes.size());
  EXPECT_EQ(before.mesh.cells.size(), plain.cells.size());
  EXPECT_EQ(before.mesh.press_fit.size(), plain.press_fit.size());
  ASSERT_EQ(before.split.size(), 1u);
  EXPECT_EQ(before.mesh.points.at("weld root"), before.split[0].disc_node);
  EXPECT_EQ(before.mesh.node_parts[before.split[0].rim_node], Part::rim);
  EXPECT_EQ(before.mesh.edges.count("weld face"), 0u);
  EXPECT_EQ(before.mesh.edges.at("disc outer").size(), 4u);
  for (const PressFitPair &pair : before.mesh.press_fit)
    EXPECT_EQ(before.mesh.nodes[pair.disc_node], before.mesh.nodes[pair.rim_node]);
  for (std::size_t i = 0; i < welded.nodes.size(); ++i)
    if (before.node[i] >= 0) {
      EXPECT_EQ(before.mesh.nodes[before.node[i]], welded.nodes[i]);
    }
}

TEST(Unwelded, MeshKeepsItsSymmetry) {
  const int n_theta = 8;
  Mesh mesh = test::revolve(welded_rings(), n_theta);
  mesh.symmetry = n_theta;
  for (int i = 0; i < int(mesh.nodes.size()); ++i) {
    const int ring = i / (2 * n_theta), k = i % (2 * n_theta);
    mesh.turned.push_back(ring * 2 * n_theta + (k + 2 * n_theta - 2) % (2 * n_theta));
  }
  const UnweldedMesh before = unwelded(mesh);
  ASSERT_EQ(before.split.size(), 2u * n_theta);
  ASSERT_EQ(before.mesh.turned.size(), before.mesh.nodes.size());
  const double angle = 2 * pi / n_theta;
  for (std::size_t i = 0; i < before.mesh.nodes.size(); ++i) {
    const Vec3 &x = before.mesh.nodes[i], &y = before.mesh.nodes[before.mesh.turned[i]];
    EXPECT_NEAR(x[0] * std::cos(angle) - x[1] * std::sin(angle), y[0], 1e-9);
    EXPECT_NEAR(x[0] * std::sin(angle) + x[1] * std::cos(angle), y[1], 1e-9);
    EXPECT_EQ(before.mesh.node_parts[i], before.mesh.node_parts[before.mesh.turned[i]]);
  }
  for (const CellFace &f : before.mesh.surfaces.at("rim outer"))
    EXPECT_EQ(before.mesh.parts[f.cell], Part::rim);
}

TEST(PressFitOfAWeldedWheel, StressIsThatOfTheUnweldedRings) {
  const SectionMesh welded = welded_rings(), plain = pressed_rings();
  HarmonicSupports one;
  one.held = {{"disc inner bottom", {false, false, true}, {}}};
  HarmonicSupports both = one;
  both.held.push_back({"rim inner bottom", {false, false, true}, {}});
  // "rim inner bottom" is the weld's node in the welded mesh; there the root holds the rim.
  const auto with = HarmonicModel(welded, all_steel).solve(one, {section_press_fit(0.1)}).front();
  const auto without =
      HarmonicModel(plain, all_steel).solve(both, {section_press_fit(0.1)}).front();
  EXPECT_NEAR(with.strain_energy, without.strain_energy, 1e-9 * without.strain_energy);
  const int root = welded.points.at("weld root");
  for (std::size_t i = 0; i < welded.nodes.size(); ++i) {
    if (welded.node_parts[i] == Part::weld) {
      EXPECT_EQ(with.stress[i].tt, 0);
      EXPECT_EQ(with.displacement[i][0], with.displacement[root][0]);
    } else if (int(i) < int(plain.nodes.size())) {
      EXPECT_NEAR(with.stress[i].tt, without.stress[i].tt, 1e-6);
      EXPECT_NEAR(with.displacement[i][0], without.displacement[i][0], 1e-9);
    }
  }
  // Lame, plane stress, a 160, b 164, c 167, d 0.1 mm: p = d E (b^2-a^2)(c^2-b^2) / (2 b^3
  // (c^2-a^2)). Work p d 2 pi b h / 2 over the height of 20 mm; long against neither, so 1 %.
  const double p = 0.1 * 210000 * (164. * 164 - 160. * 160) * (167. * 167 - 164. * 164) /
                   (2 * std::pow(164., 3) * (167. * 167 - 160. * 160));
  const double work = p * 0.1 * pi * 164 * 20;
  EXPECT_NEAR(with.strain_energy, work, 0.01 * work);
}

TEST(PressFitOfAWeldedWheel, TogetherWithAnotherLoadIsAnError) {
  HarmonicLoad load = section_press_fit(0.1);
  load.ring_forces = {{"weld root", {1, 0, 0}}};
  HarmonicSupports supports;
  supports.held = {{"disc inner bottom", {false, false, true}, {}}};
  EXPECT_THROW(HarmonicModel(welded_rings(), all_steel).solve(supports, {load}), Error);
}

}  // namespace
}  // namespace felloe
