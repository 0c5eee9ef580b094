// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that the optimiser chain finds the smallest thickness of an annular plate under a stress
// limit: one sheet (all stations tied by linear limits), simply supported outside, a line load Q at
// the hole's edge.
//
// Slope p of the mid-surface under the shear force Q b / r (Timoshenko and Woinowsky-Krieger,
// Theory of Plates and Shells, sections 16 and 17): (1/r (r p)')' = Q b / (D r), so that
//
//   p = C1 r / 2 + C2 / r + Q b / (2 D) r ln r
//   M_r = D (p' + nu p / r),  M_t = D (p / r + nu p')
//   M_r = D [(1 + nu) C1 / 2 - (1 - nu) C2 / r^2] + Q b / 2 [(1 + nu) ln r + 1]
//
// with M_r = 0 at r = b and r = a. The largest stress is the hoop stress at the hole's edge,
// 6 |M_t| / t^2: there M_r = 0, so that M_t = D (1 - nu^2) p / r. Hence t = sqrt(6 |M_t| / s).
#include <gtest/gtest.h>

#include <cmath>

#include "solver/harmonic_model.h"
#include "tests/support/section_block.h"
#include "tests/support/steel.h"
#include "tests/thin/section_problem.h"

namespace felloe {
namespace {

constexpr double b = 60, a = 200, nu = 0.3, line_load = 20, stress = 180;  // mm, N/mm, MPa
constexpr int n_cells = 30;

double closed_form() {
  const double q = line_load * b / 2;  // of D p
  const double ln_a = std::log(a), ln_b = std::log(b);
  // k1 = D (1 + nu) C1 / 2, k2 = D (1 - nu) C2:  k1 - k2 / r^2 = -q [(1 + nu) ln r + 1]
  const double k2 = q * (1 + nu) * (ln_a - ln_b) / (1 / (a * a) - 1 / (b * b));
  const double k1 = k2 / (b * b) - q * ((1 + nu) * ln_b + 1);
  const double slope_over_r = k1 / (1 + nu) + k2 / (1 - nu) / (b * b) + q * ln_b;  // D p / r
  return std::sqrt(6 * std::abs((1 - nu * nu) * slope_over_r) / stress);
}

/// Size of the hoop stress on both faces at every radius over the limit, minus 1.
std::vector<double> stress_limits(const ThicknessLaw &law) {
  SectionMesh mesh = test::section_block(n_cells, 2, [&](double x, double y) {
    const double r = b + (a - b) * x * (0.4 + 0.6 * x);
    return Vec2{r, (y - 0.5) * law.at(r)};
  });
  mesh.points["support"] = test::node_at(mesh, a, 0);
  mesh.points["loaded"] = test::node_at(mesh, b, 0);
  HarmonicSupports supports;
  supports.held = {{"support", {false, true, true}, {}}};
  HarmonicLoad load;
  load.name = "line load";
  load.ring_forces = {{"loaded", {0, 0, line_load}}};
  const HarmonicSolution s =
      HarmonicModel(mesh, {{Part::disc, test::steel()}}).solve(supports, {load}).front();
  std::vector<double> limits;
  for (const int row : {0, 4})
    for (int i = 0; i <= 2 * n_cells; ++i)
      limits.push_back(std::abs(s.stress[row * (2 * n_cells + 1) + i].tt) / stress - 1);
  return limits;
}

TEST(AnnularPlate, OfOneSheetGetsTheThicknessOfPlateTheory) {
  // as three stations that the linear limits tie together: no slope at all
  OptimumProblem p =
      test::lightest_section(b, a, {15.0, 15.0, 15.0}, 2, 30, 4 * n_cells + 2, stress_limits);
  for (int i = 0; i < 2; ++i)
    for (const double sign : {1.0, -1.0}) p.linear.push_back({{{i, sign}, {i + 1, -sign}}, 0});
  const Optimum o = smallest(p, {});
  EXPECT_TRUE(o.feasible) << o.ended;
  EXPECT_LE(o.steps.size(), 60u);
  // shear deformation and the load at mid-thickness count (t / (a - b))^2, below 1 %
  for (const double t : o.x) EXPECT_NEAR(t, closed_form(), 0.02 * closed_form());
}

TEST(AnnularPlate, WithFreeStationsIsLighterThanOneSheet) {
  OptimumProblem p = test::lightest_section(b, a, std::vector<double>(5, closed_form()), 2, 30,
                                            4 * n_cells + 2, stress_limits);
  const Optimum o = smallest(p, {});
  EXPECT_TRUE(o.feasible) << o.ended;
  EXPECT_LT(o.at.objective, 0.95);  // 1: the one sheet
}

}  // namespace
}  // namespace felloe
