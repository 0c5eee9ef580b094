// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that the optimiser chain finds the rotating disc of uniform strength from a flat start.
//
// Equilibrium of a thin disc: (r t s_r)' - t s_t + rho w^2 r^2 t = 0 (Timoshenko and Goodier,
// Theory of Elasticity, section 32; variable thickness added). With s_r = s_t = s everywhere
// t' / t = -rho w^2 r / s, hence t = t0 exp(-rho w^2 r^2 / (2 s)). At the edge the disc carries
// blades that pull with s t(R) a length.
#include <gtest/gtest.h>

#include <cmath>

#include "solver/harmonic_model.h"
#include "tests/support/section_block.h"
#include "tests/support/steel.h"
#include "tests/thin/section_problem.h"

namespace felloe {
namespace {

constexpr double radius = 200, edge_thickness = 5, stress = 200;
constexpr double exponent = 0.7;  // rho w^2 R^2 / (2 s)
constexpr int n_cells = 24;

double closed_form(double r) {
  return edge_thickness * std::exp(exponent * (1 - r * r / (radius * radius)));
}

/// Radial and hoop stress of every mid-plane node over the limit, minus 1.
std::vector<double> stress_limits(const ThicknessLaw &law) {
  const SectionMesh mesh = test::section_block(n_cells, 1, [&](double a, double b) {
    return Vec2{radius * a, (b - 0.5) * law.at(radius * a)};
  });
  HarmonicLoad load;
  load.name = "spin and blades";
  const double force = 2 * stress * exponent / (radius * radius);  // rho w^2
  load.body_force = [=](const Vec2 &x) { return HarmonicVector{force * x[0], 0, 0}; };
  const double pull = stress * edge_thickness / law.at(radius);
  load.tractions = {{"outer", [=](const Vec2 &, const Vec2 &) {
                       return HarmonicVector{pull, 0, 0};
                     }}};
  HarmonicSupports supports;
  supports.held = {{"inner bottom", {false, true, true}, {}}};
  const HarmonicSolution s =
      HarmonicModel(mesh, {{Part::disc, test::steel()}}).solve(supports, {load}).front();
  std::vector<double> limits;
  for (int i = 0; i <= 2 * n_cells; ++i) {
    const HarmonicStress &at = s.stress[2 * n_cells + 1 + i];  // second row: z = 0
    limits.push_back(at.rr / stress - 1);
    limits.push_back(at.tt / stress - 1);
  }
  return limits;
}

TEST(UniformStrengthDisc, IsFoundFromAFlatStart) {
  const std::vector<double> flat(9, 12.0);
  OptimumRules rules;
  rules.limit_tolerance = 1e-3;
  const Optimum o = smallest(
      test::lightest_section(0, radius, flat, 1, 30, 4 * n_cells + 2, stress_limits), rules);
  EXPECT_TRUE(o.feasible) << o.ended;
  EXPECT_LE(o.steps.size(), 30u);
  // nine straight pieces follow the curve to 0.3 %, the section is 3D to (t'/2)^2 < 0.1 %
  for (std::size_t i = 0; i < o.x.size(); ++i) {
    const double r = radius * double(i) / double(o.x.size() - 1);
    EXPECT_NEAR(o.x[i], closed_form(r), 0.02 * closed_form(r)) << "r = " << r;
  }
}

}  // namespace
}  // namespace felloe
