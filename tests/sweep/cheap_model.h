// SPDX-License-Identifier: GPL-3.0-or-later
// A store of many designs with a model that costs nothing, for tests of everything but mechanics.
#pragma once
#include <chrono>
#include <string>
#include <thread>
#include <vector>

#include "cli/case_file.h"
#include "cli/sweep/store.h"
#include "cli/sweep/worker.h"

namespace felloe::test {

/// A plain disc of this thickness.
inline std::string disc_text(double thickness) {
  return "title = \"disc\"\n[wheel]\nconstruction = \"disc only\"\n[disc]\nbore_diameter_mm = "
         "60.0\n"
         "hub_face_diameter_mm = 100.0\nthickness_mm = " +
         toml_text(thickness) +
         "\nmeridian = [ { r_mm = 180.0, z_mm = 0.0 } ]\n[materials.disc]\n"
         "youngs_modulus_MPa = 210000.0\npoissons_ratio = 0.3\ndensity_kg_m3 = 7850.0\n"
         "yield_strength_MPa = 400.0\ntensile_strength_MPa = 500.0\n[support]\n"
         "outer_edge = \"held\"\n[plate_load]\nhub_moment_Nm = 100.0\n";
}

/// n designs of ascending thickness.
inline std::vector<PlannedDesign> discs(int n) {
  std::vector<PlannedDesign> all;
  for (int i = 0; i < n; ++i) {
    const double thickness = 1 + 0.01 * i;
    all.push_back({{thickness}, disc_text(thickness), ""});
  }
  return all;
}

inline SweepHead disc_head() {
  SweepHead head;
  head.title = "discs";
  head.keys = {"disc.thickness_mm"};
  head.units = {"mm"};
  return head;
}

/// Stiffness and stress of a thin plate in proportions only: mass ~ t, stress ~ 1 / t^2.
inline DesignFigures cheap_figures(const Case &c, Depth) {
  const double t = c.wheel.disc.thickness.front().thickness;
  DesignFigures f;
  f.mass_kg = f.disc_mass_kg = 0.8 * t;
  f.tilt_Nm_per_deg = 10 * t * t * t;
  TestFigures test;
  test.test = "tilt";
  test.feature = "hub";
  test.stress_MPa = 1000 / (t * t);
  test.allowed_stress_MPa = 200;
  test.required_cycles = 1e5;
  test.life_design = 1e5 * test.allowed_stress_MPa / test.stress_MPa;
  test.verdict = test.life_design >= 1e5 ? Verdict::pass : Verdict::fail;
  f.tests = {test};
  f.verdict = test.verdict;
  return f;
}

}  // namespace felloe::test
