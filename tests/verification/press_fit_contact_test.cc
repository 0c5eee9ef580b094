// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that a press fit pushes only, and that it finds where it does.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "mesher/error.h"
#include "solver/press_fit_contact.h"
#include "tests/support/block_mesh.h"
#include "tests/support/steel.h"

namespace felloe {
namespace {

constexpr double inner = 100, thickness = 2, half_width = 8, interference = 0.05;
constexpr int n_theta = 16, sectors = 4;

/// Press-fit pairs at every node that sleeve and shell have in common.
void pair_up(Mesh &mesh) {
  const std::vector<int> inside = surface_nodes(mesh, "shell inside");
  for (const int n : surface_nodes(mesh, "sleeve outside"))
    for (const int m : inside)
      if (norm(subtract(mesh.nodes[n], mesh.nodes[m])) < 1e-6) mesh.press_fit.push_back({n, m});
}

/// Half of a thin shell with half of a sleeve inside; mirror plane at z = 0. Pairs sit at every
/// common node, a turn by a quarter maps the body onto itself.
Mesh sleeve_in_shell(bool as_sectors) {
  test::Block sleeve = test::ring(60, inner, 0, half_width, {1, n_theta, 2}),
              shell = test::ring(inner, inner + thickness, 0, 60, {1, n_theta, 15});
  sleeve.sides = {"", "sleeve outside", "", "", "bottom", ""};
  shell.sides = {"shell inside", "", "", "", "bottom", ""};
  shell.part = Part::rim;
  Mesh mesh = test::block_mesh(std::vector<test::Block>{sleeve, shell});
  pair_up(mesh);
  for (int quarter = 0; quarter < 4; ++quarter) {
    const double c = std::cos(quarter * pi / 2), s = std::sin(quarter * pi / 2);
    for (const auto &[name, r] :
         {std::pair{"sleeve kept", 60.0}, {"shell kept", inner + thickness}})
      mesh.lines[name].push_back(test::node_at(mesh, {r * c, r * s, 0}));
  }
  if (!as_sectors) return mesh;
  mesh.symmetry = sectors;
  mesh.turned.resize(mesh.nodes.size());
  for (const Part part : {Part::disc, Part::rim})
    for (std::size_t n = 0; n < mesh.nodes.size(); ++n) {
      if (mesh.node_parts[n] != part) continue;
      const Vec3 &x = mesh.nodes[n], to{-x[1], x[0], x[2]};
      for (std::size_t m = 0; m < mesh.nodes.size(); ++m)
        if (mesh.node_parts[m] == part && norm(subtract(mesh.nodes[m], to)) < 1e-6)
          mesh.turned[n] = static_cast<int>(m);
    }
  return mesh;
}

PressedTogether pressed(const Mesh &mesh, double stiffening) {
  Material rigid = test::steel();
  rigid.youngs_modulus *= stiffening;
  const AnyModel model(false, mesh, {{Part::disc, rigid}, {Part::rim, test::steel()}},
                       NodalFrame::cylindrical);
  Supports supports;
  supports.held = {{"bottom", {false, false, true}, {}},
                   {"sleeve kept", {false, true, false}, {}},
                   {"shell kept", {false, true, false}, {}}};
  LoadCase load;
  load.name = "press fit";
  load.interference = interference;
  return pressed_together(model, mesh, supports, load);
}

// A rigid sleeve of width L inside a long thin shell touches it along its two edges alone when
// beta L < 1.8: each line load P deflects the shell by P / (8 beta^3 D) (1 + phi(beta L)), and the
// shell bows outwards in between. Source: S. Timoshenko, S. Woinowsky-Krieger, Theory of Plates and
// Shells, 2nd ed. 1959, section 116 (from memory). A tie would carry 9 % more, and pull. 3 %: the
// theory leaves out terms of the order t / R = 2 %, shear and local indentation.
TEST(PressFitContact, RigidSleeveTouchesAThinShellAtItsEdges) {
  const Mesh mesh = sleeve_in_shell(false);
  const PressedTogether p = pressed(mesh, 1e4);
  const Material steel = test::steel();
  const double nu = steel.poissons_ratio, mean_radius = inner + thickness / 2;
  const double beta = std::pow(3 * (1 - nu * nu), 0.25) / std::sqrt(mean_radius * thickness);
  const double bending = steel.youngs_modulus * std::pow(thickness, 3) / (12 * (1 - nu * nu));
  const double x = beta * 2 * half_width, phi = std::exp(-x) * (std::cos(x) + std::sin(x));
  const double line_load = 8 * std::pow(beta, 3) * bending * interference / (1 + phi);
  const auto &force = p.solution.press_fit_force;
  const double total = std::accumulate(force.begin(), force.end(), 0.0);
  EXPECT_NEAR(total, line_load * 2 * pi * mean_radius, 0.03 * total);
  // Clapeyron, exact for the discrete body
  EXPECT_NEAR(p.solution.strain_energy, 0.5 * total * interference,
              1e-6 * p.solution.strain_energy);
  ASSERT_EQ(mesh.press_fit.size(), 5u * 2 * n_theta);  // rows at z = 0, 2, 4, 6, 8
  EXPECT_EQ(p.lifted.size(), 4u * 2 * n_theta);
  for (const int n : p.lifted) EXPECT_LT(mesh.nodes[n][2], half_width - 1);
  EXPECT_LT(p.complementarity_error, 1e-9);
  EXPECT_GT(*std::min_element(force.begin(), force.end()), -1e-9 * total);
}

// With sectors one wedge stands for all; the whole matrix says the same.
TEST(PressFitContact, SectorsGiveTheWholeResult) {
  const Mesh whole = sleeve_in_shell(false), repeated = sleeve_in_shell(true);
  const PressedTogether a = pressed(whole, 1e4), b = pressed(repeated, 1e4);
  EXPECT_EQ(a.lifted, b.lifted);
  EXPECT_EQ(a.steps, b.steps);
  ASSERT_EQ(a.solution.press_fit_force.size(), b.solution.press_fit_force.size());
  const double largest =
      *std::max_element(a.solution.press_fit_force.begin(), a.solution.press_fit_force.end());
  for (std::size_t k = 0; k < whole.press_fit.size(); ++k)
    EXPECT_NEAR(a.solution.press_fit_force[k], b.solution.press_fit_force[k], 1e-7 * largest);
}

// Rings of one height push everywhere: nothing lifts off, one solve is enough (Lame).
TEST(PressFitContact, EvenRingsStayTogether) {
  test::Block disc = test::ring(20, 30, 0, 2, {4, 24, 1}),
              rim = test::ring(30, 60, 0, 2, {6, 24, 1});
  disc.sides = {"", "sleeve outside", "", "", "bottom", ""};
  rim.sides = {"shell inside", "", "", "", "bottom", ""};
  rim.part = Part::rim;
  Mesh mesh = test::block_mesh(std::vector<test::Block>{disc, rim});
  pair_up(mesh);
  for (const Vec3 &x : {Vec3{20, 0, 0}, Vec3{0, 20, 0}, Vec3{-20, 0, 0}})
    mesh.lines["sleeve kept"].push_back(test::node_at(mesh, x));
  mesh.lines["shell kept"] = {test::node_at(mesh, {60, 0, 0})};
  const PressedTogether p = pressed(mesh, 1);
  EXPECT_TRUE(p.lifted.empty());
  EXPECT_EQ(p.steps, 1);
  // p = E d (b^2 - a^2)(c^2 - b^2) / (2 b^3 (c^2 - a^2)): Timoshenko and Goodier, Theory of
  // Elasticity, section 28; 0.2 % as for tied rings
  const double E = test::steel().youngs_modulus;
  const double pressure =
      E * interference * (900 - 400) * (3600 - 900) / (2 * 27000.0 * (3600 - 400));
  const auto &force = p.solution.press_fit_force;
  const double total = std::accumulate(force.begin(), force.end(), 0.0);
  EXPECT_NEAR(total, pressure * 2 * pi * 30 * 2, 0.002 * total);
}

}  // namespace
}  // namespace felloe
