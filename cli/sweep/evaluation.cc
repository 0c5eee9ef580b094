// SPDX-License-Identifier: GPL-3.0-or-later
// What the worker processes of the program evaluate with.
#include <map>
#include <memory>

#include "cli/analysis.h"
#include "cli/sweep/worker.h"
#include "solver/parallel.h"

namespace felloe {
namespace {

/// A plain disc is not rated: mass, stiffness and the largest stress of each load.
DesignFigures plate_figures(const Case &c) {
  Progress progress(true);
  const Analysis a = analyse(c, progress);
  DesignFigures f;
  f.mass_kg = a.results.mass_kg;
  f.disc_mass_kg = a.results.disc_mass_kg;
  f.tilt_Nm_per_deg = a.results.stiffness.tilt_Nm_per_deg;
  f.axial_N_per_mm = a.results.stiffness.axial_N_per_mm;
  f.dofs = a.results.mesh.dofs;
  f.solve_seconds = progress.total_seconds();
  for (const HotSpot &spot : a.results.hot_spots) {
    TestFigures t;
    t.test = spot.test;
    t.feature = spot.feature;
    t.stress_MPa = spot.amplitude;
    f.tests.push_back(t);
  }
  return f;
}

}  // namespace

Evaluate design_evaluation() {
  auto evaluators = std::make_shared<std::map<Depth, DesignEvaluator>>();
  return [evaluators](const Case &c, Depth depth) {
    const ProcessorsHere one(1);  // the other ones have designs of their own
    if (c.wheel.construction == Construction::disc_only) return plate_figures(c);
    return evaluators->try_emplace(depth, depth).first->second.evaluate(c);
  };
}

}  // namespace felloe
