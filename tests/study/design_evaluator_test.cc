// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that a design of a sweep has the figures of a run, whatever was evaluated before it.
#include <gtest/gtest.h>

#include "cli/analysis.h"
#include "cli/sweep/design_figures.h"
#include "mesher/error.h"
#include "post/results_json.h"
#include "post/worst_first.h"
#include "tests/study/demo_case.h"

namespace felloe {
namespace {

void expect_same(const DesignFigures &a, const DesignFigures &b, double tolerance) {
  const auto near = [tolerance](double x, double y) {
    if (x == y) return;  // lives may have no end
    EXPECT_NEAR(x, y, tolerance * std::abs(y));
  };
  near(a.mass_kg, b.mass_kg);
  near(a.disc_mass_kg, b.disc_mass_kg);
  near(a.tilt_Nm_per_deg, b.tilt_Nm_per_deg);
  near(a.axial_N_per_mm, b.axial_N_per_mm);
  near(a.radial_N_per_mm, b.radial_N_per_mm);
  EXPECT_EQ(a.dofs, b.dofs);
  EXPECT_EQ(a.verdict, b.verdict);
  ASSERT_EQ(a.tests.size(), b.tests.size());
  for (std::size_t i = 0; i < a.tests.size(); ++i) {
    EXPECT_EQ(a.tests[i].test, b.tests[i].test);
    EXPECT_EQ(a.tests[i].feature, b.tests[i].feature);
    near(a.tests[i].stress_MPa, b.tests[i].stress_MPa);
    near(a.tests[i].life_p50, b.tests[i].life_p50);
    near(a.tests[i].life_design, b.tests[i].life_design);
    near(a.tests[i].required_cycles, b.tests[i].required_cycles);
  }
}

DesignFigures figures_of(const Results &r) {
  DesignFigures f;
  f.mass_kg = r.mass_kg;
  f.disc_mass_kg = r.disc_mass_kg;
  f.tilt_Nm_per_deg = r.stiffness.tilt_Nm_per_deg;
  f.axial_N_per_mm = r.stiffness.axial_N_per_mm;
  f.radial_N_per_mm = r.stiffness.radial_N_per_mm;
  f.dofs = r.mesh.dofs;
  f.verdict = overall_verdict(r);
  for (const TestVerdict &t : r.tests)
    for (const HotSpot &h : r.hot_spots)  // worst first
      if (h.test == t.name) {
        TestFigures figures;
        figures.test = t.name;
        figures.feature = h.feature;
        figures.stress_MPa = h.fully_reversed;
        figures.life_p50 = shortest_lived(r.hot_spots, t.name)->life_p50;
        figures.life_design = t.life_design;
        figures.required_cycles = h.required_cycles;
        f.tests.push_back(figures);
        break;
      }
  return f;
}

/// Another sheet and another nave bend: the map changes, and with it the places of circles.
Case neighbour() {
  Case c = test::coarse_demo();
  for (auto &station : c.wheel.disc.thickness) station.thickness *= 1.04;
  c.wheel.disc.meridian[0].bend_radius *= 1.05;
  return c;
}

// Same mesh, same equations; the order of sums differs with the number of threads. Lives go with
// the fifth power of stress: 1e-8 leaves that rounding room.
TEST(DesignEvaluator, WheelHasTheFiguresOfARun) {
  Progress quiet(true);
  const Case c = test::coarse_demo();
  expect_same(DesignEvaluator(Depth::wheel).evaluate(c), figures_of(analyse(c, quiet).results),
              1e-8);
}

TEST(DesignEvaluator, FiguresDoNotDependOnTheDesignBefore) {
  const Case a = test::coarse_demo(), b = neighbour();
  DesignEvaluator evaluator(Depth::wheel);
  const DesignFigures first = evaluator.evaluate(a), second = evaluator.evaluate(b),
                      third = evaluator.evaluate(a);
  EXPECT_GT(second.mass_kg, 1.01 * first.mass_kg);
  expect_same(third, first, 1e-9);
  expect_same(second, DesignEvaluator(Depth::wheel).evaluate(b), 1e-9);
}

TEST(DesignEvaluator, PlainDiscIsAnErrorThatSaysWhy) {
  Case plate = test::coarse_demo();
  plate.wheel.construction = Construction::disc_only;
  EXPECT_THROW(DesignEvaluator(Depth::wheel).evaluate(plate), Error);
}

}  // namespace
}  // namespace felloe
