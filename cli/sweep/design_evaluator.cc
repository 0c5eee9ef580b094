// SPDX-License-Identifier: GPL-3.0-or-later
// One design after another, each as a whole run.
#include <algorithm>

#include "cli/analysis.h"
#include "cli/sweep/design_figures.h"
#include "mesher/error.h"

namespace felloe {

struct DesignEvaluator::Impl {
  Depth depth;
};

DesignEvaluator::DesignEvaluator(Depth depth) : impl_(new Impl{depth}) {}
DesignEvaluator::~DesignEvaluator() = default;

namespace {

TestFigures figures_of(const TestVerdict &test, const std::vector<HotSpot> &spots) {
  TestFigures t;
  t.test = test.name;
  t.life_design = test.life_design;
  t.required_cycles = test.required_cycles;
  t.verdict = test.verdict;
  const HotSpot *worst = nullptr;
  for (const HotSpot &s : spots)
    if (s.test == test.name && (!worst || s.life_design < worst->life_design)) worst = &s;
  if (!worst) return t;
  t.feature = worst->feature;
  t.stress_MPa = worst->fully_reversed;
  t.error_percent = worst->error_percent;
  t.life_p50 = worst->life_p50;
  return t;
}

}  // namespace

DesignFigures DesignEvaluator::evaluate(const Case &c) {
  if (impl_->depth == Depth::section)
    throw Error("[plan] depth: the section model is not there yet; write depth = \"wheel\"");
  Progress progress(true);
  const Results r = analyse(c, progress).results;
  DesignFigures f;
  f.mass_kg = r.mass_kg;
  f.disc_mass_kg = r.disc_mass_kg;
  f.tilt_Nm_per_deg = r.stiffness.tilt_Nm_per_deg;
  f.axial_N_per_mm = r.stiffness.axial_N_per_mm;
  f.radial_N_per_mm = r.stiffness.radial_N_per_mm;
  f.dofs = r.mesh.dofs;
  f.solve_seconds = progress.total_seconds();
  f.verdict = r.tests.empty() ? Verdict::not_rated : Verdict::pass;
  for (const TestVerdict &t : r.tests) {
    f.tests.push_back(figures_of(t, r.hot_spots));
    if (t.verdict == Verdict::not_rated && f.verdict == Verdict::pass)
      f.verdict = Verdict::not_rated;
    if (t.verdict == Verdict::fail) f.verdict = Verdict::fail;
  }
  return f;
}

}  // namespace felloe
