// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that press-fit ties reproduce the interference pressure of two rings.
#include <gtest/gtest.h>

#include "mesher/error.h"
#include "solver/elastic_model.h"
#include "solver/unwelded.h"
#include "tests/support/block_mesh.h"
#include "tests/support/steel.h"

namespace felloe {
namespace {

/// Two full rings, tied at their common radius; coincident nodes are not shared.
Mesh two_rings(double a, double b, double c, std::array<int, 3> inner, std::array<int, 3> outer) {
  test::Block disc = test::ring(a, b, 0, 2, inner), rim = test::ring(b, c, 0, 2, outer);
  rim.part = Part::rim;
  disc.sides[1] = "disc outside";
  rim.sides[0] = "rim inside";
  Mesh mesh = test::block_mesh(std::vector<test::Block>{disc, rim});
  std::map<std::array<long, 3>, int> rim_node;
  const auto key = [](const Vec3 &x) {
    return std::array<long, 3>{std::lround(1e6 * x[0]), std::lround(1e6 * x[1]),
                               std::lround(1e6 * x[2])};
  };
  for (const int n : surface_nodes(mesh, "rim inside")) rim_node[key(mesh.nodes[n])] = n;
  for (const int n : surface_nodes(mesh, "disc outside"))
    mesh.press_fit.push_back({n, rim_node.at(key(mesh.nodes[n]))});
  // One node of each ring keeps it from turning about the axis.
  mesh.lines["disc stop"] = {test::node_at(mesh, {a, 0, 0})};
  mesh.lines["rim stop"] = {test::node_at(mesh, {c, 0, 0})};
  return mesh;
}

/// The ties hold the rings to each other; stops keep them from turning, two more tangential
/// components of the disc keep the pair in place without force.
Supports free_rings(Mesh &mesh, double a) {
  mesh.lines["disc quarter"] = {test::node_at(mesh, {0, a, 0})};
  mesh.lines["disc half"] = {test::node_at(mesh, {-a, 0, 0})};
  Supports supports;
  supports.held = {{"bottom", {false, false, true}, {}},
                   {"disc stop", {false, true, false}, {}},
                   {"disc quarter", {false, true, false}, {}},
                   {"disc half", {false, true, false}, {}},
                   {"rim stop", {false, true, false}, {}}};
  return supports;
}

double hoop(const Mesh &mesh, const Solution &s, Part part, double r) {
  for (std::size_t n = 0; n < mesh.nodes.size(); ++n)
    if (mesh.node_parts[n] == part && norm(subtract(mesh.nodes[n], {r, 0, 0})) < 1e-6)
      return s.stress[n][1];
  ADD_FAILURE();
  return 0;
}

/// Hoop stresses at the bore of the disc, at the joint (disc, rim) of equal rings in plane stress.
struct Expected {
  double a, b, c, interference, pressure, disc_bore, disc_joint, rim_joint;
};

// Lame's rings (Timoshenko and Goodier, Theory of Elasticity, section 28), pressure
// p = E d (b^2 - a^2)(c^2 - b^2) / (2 b^3 (c^2 - a^2)). 1 % of the largest stress: nodal stresses
// at a boundary on this mesh; 0.2 % on the displacement jump's pressure through the energy.
void expect_rings(const Expected &e, std::array<int, 3> inner, std::array<int, 3> outer) {
  Mesh mesh = two_rings(e.a, e.b, e.c, inner, outer);
  const Supports supports = free_rings(mesh, e.a);
  const ElasticModel model(mesh, {{Part::disc, test::steel()}, {Part::rim, test::steel()}},
                           NodalFrame::cylindrical);
  LoadCase load;
  load.name = "press fit";
  load.interference = e.interference;
  const Solution s = model.solve(supports, {load}).front();
  // Clapeyron: the energy is half of pressure times interference times area.
  const double energy = 0.5 * e.pressure * e.interference * 2 * pi * e.b * 2;
  EXPECT_NEAR(s.strain_energy, energy, 0.002 * energy);
  const double tolerance = 0.01 * std::abs(e.disc_bore);
  EXPECT_NEAR(hoop(mesh, s, Part::disc, e.a), e.disc_bore, tolerance);
  EXPECT_NEAR(hoop(mesh, s, Part::disc, e.b), e.disc_joint, tolerance);
  EXPECT_NEAR(hoop(mesh, s, Part::rim, e.b), e.rim_joint, tolerance);
  for (const PressFitPair &pair : mesh.press_fit) {
    const auto radial = [&](int n) {
      const Vec3 &x = mesh.nodes[n], &u = s.displacement[n];
      return (x[0] * u[0] + x[1] * u[1]) / std::hypot(x[0], x[1]);
    };
    ASSERT_NEAR(radial(pair.rim_node) - radial(pair.disc_node), e.interference, 1e-12);
  }
}

TEST(PressFit, ThickRingsFollowLame) {
  expect_rings({20, 30, 60, 0.03, 49.21875, -177.1875, -127.96875, 82.03125}, {4, 24, 1},
               {6, 24, 1});
}

TEST(PressFit, ThinRingsLikeDiscInRimFollowLame) {
  // hoop at the joint of the disc: -p (b^2 + a^2) / (b^2 - a^2)
  expect_rings({100, 104, 110, 0.05, 2.328602, -61.730769,
                -2.328602 * (104 * 104 + 100 * 100.) / (104 * 104 - 100 * 100.), 41.559371},
               {1, 32, 1}, {1, 32, 1});
}

/// Joins disc and rim along the circle r = 30, z = 2, as a weld's root does, and lays a weld
/// beside.
Mesh welded_rings() {
  test::Block disc = test::ring(20, 30, 0, 2, {4, 24, 1}),
              rim = test::ring(30, 60, 0, 2, {6, 24, 1});
  test::Block weld = test::ring(28, 32, 2.5, 3, {1, 24, 1});
  disc.sides = {"", "disc outside", "", "", "bottom", ""};
  rim.sides = {"rim inside", "", "", "", "bottom", ""};
  weld.sides = {"", "", "", "", "", "weld face"};
  rim.part = Part::rim;
  weld.part = Part::weld;
  Mesh mesh = test::block_mesh(std::vector<test::Block>{disc, rim, weld});
  std::vector<int> joined(mesh.nodes.size());
  for (std::size_t n = 0; n < joined.size(); ++n) joined[n] = static_cast<int>(n);
  for (const int d : surface_nodes(mesh, "disc outside"))
    for (const int r : surface_nodes(mesh, "rim inside")) {
      if (norm(subtract(mesh.nodes[d], mesh.nodes[r])) > 1e-6) continue;
      if (mesh.nodes[d][2] > 1.9)
        joined[r] = d;
      else
        mesh.press_fit.push_back({d, r});
    }
  for (auto &cell : mesh.cells)
    for (int &n : cell) n = joined[n];
  for (const auto &[name, x] : {std::pair{"disc stop", 20.0}, std::pair{"rim stop", 60.0}})
    mesh.lines[name] = {test::node_at(mesh, {x, 0, 0})};
  return mesh;
}

// The press fit comes before the weld: without its weld, the wheel is the two rings of Lame again.
// With the root joined, the interference has nowhere to go beside it.
TEST(PressFit, StrainsAnUnweldedBody) {
  const Mesh welded = welded_rings();
  Mesh mesh = unwelded(welded);
  ASSERT_EQ(mesh.nodes.size(), welded.nodes.size() + 48);
  EXPECT_EQ(mesh.surfaces.count("weld face"), 0u);
  EXPECT_EQ(mesh.lines["press-fit stop"].size(), 48u);
  Supports supports = free_rings(mesh, 20);
  supports.held.back().place = "press-fit stop";  // no ring turns against the other
  const ElasticModel model(mesh, {{Part::disc, test::steel()}, {Part::rim, test::steel()}},
                           NodalFrame::cylindrical);
  LoadCase load;
  load.name = "press fit";
  load.interference = 0.03;
  const Solution s = model.solve(supports, {load}).front();
  const double energy = 0.5 * 49.21875 * 0.03 * 2 * pi * 30 * 2;  // as for the thick rings above
  EXPECT_NEAR(s.strain_energy, energy, 0.002 * energy);
  EXPECT_NEAR(hoop(mesh, s, Part::disc, 20), -177.1875, 0.01 * 177);
  EXPECT_NEAR(hoop(mesh, s, Part::rim, 30), 82.03125, 0.01 * 177);
}

TEST(PressFit, NeedsTheCylindricalFrame) {
  Mesh mesh = two_rings(20, 30, 60, {1, 8, 1}, {1, 8, 1});
  const Supports supports = free_rings(mesh, 20);
  const ElasticModel model(mesh, {{Part::disc, test::steel()}, {Part::rim, test::steel()}});
  EXPECT_THROW(model.solve(supports, {LoadCase{}}), Error);
}

// Radial ties do not stop one ring from turning inside the other.
TEST(PressFit, RingThatCanTurnIsFound) {
  Mesh mesh = two_rings(20, 30, 60, {1, 8, 1}, {1, 8, 1});
  Supports supports = free_rings(mesh, 20);
  supports.held.pop_back();
  const ElasticModel model(mesh, {{Part::disc, test::steel()}, {Part::rim, test::steel()}},
                           NodalFrame::cylindrical);
  EXPECT_THROW(model.solve(supports, {LoadCase{}}), Error);
}

// Untied, the disc knows nothing of the interference.
TEST(PressFit, UntiedRingsAreApart) {
  Mesh mesh = two_rings(20, 30, 60, {2, 8, 1}, {2, 8, 1});
  Supports supports;
  supports.held = {{"bottom"}};
  supports.press_fit_tied = false;
  const ElasticModel model(mesh, {{Part::disc, test::steel()}, {Part::rim, test::steel()}},
                           NodalFrame::cylindrical);
  LoadCase load;
  load.interference = 0.1;
  EXPECT_EQ(model.solve(supports, {load}).front().strain_energy, 0);
}

}  // namespace
}  // namespace felloe
