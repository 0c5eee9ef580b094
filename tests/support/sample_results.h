// SPDX-License-Identifier: GPL-3.0-or-later
// Results with every kind of entry, for tests of what is written. The numbers mean nothing.
#pragma once
#include <limits>

#include "post/results.h"

namespace felloe::test {

inline TestVerdict sample_verdict(const std::string &name, const std::string &kind, double load,
                                  const std::string &unit, double required, double life) {
  TestVerdict t;
  t.name = name;
  t.kind = kind;
  t.load = load;
  t.load_unit = unit;
  t.required_cycles = required;
  t.life_design = life;
  t.verdict = life < required ? Verdict::fail : Verdict::pass;
  t.source = "a source";
  t.confidence = "found";
  return t;
}

inline Results sample_results() {
  const double infinity = std::numeric_limits<double>::infinity();
  Results r;
  r.program_version = "0.1.0";
  r.title = "Sample wheel 15 x 6 J";
  r.case_file = "cases/sample/case.toml";
  r.mesh = {39000, 1234567, 0.51, 1.0001e6, 1e6};
  r.mass_kg = 8.125;
  r.disc_mass_kg = 3.5;
  r.rim_mass_kg = 4.625;
  r.static_unbalance_g_mm = 12.5;
  r.couple_unbalance_g_mm2 = 340;
  r.survival_percent = 90;
  r.stiffness = {18400, 0, 52000};
  r.modes = {{"free", 231.25, {0, 0, 0}}, {"free", 240.5, {0, 0, 0}}, {"hub", 88.75, {4, 0, 0.5}}};
  r.load_cases.push_back({"bending", "moment", {0, 1, 2}, {2310, 0, 0}, 1e-9, 1e-11, 0, 12.5});
  HotSpot a;
  a.id = 1;
  a.feature = "vent edge outboard";
  a.test = "rotating bending";
  a.position = {100, 50, 20};
  a.r = 111.80339887498948;
  a.theta_deg = 26.56505117707799;
  a.z = 20;
  a.side = "edge";
  a.mean = 64.25;
  a.amplitude = 182.1;
  a.fully_reversed = 190.4;
  a.error_percent = 1.5;
  a.allowed = 140;
  a.criterion = "critical plane";
  a.curve = "parent metal";
  a.life_p50 = 1.234e5;
  a.life_design = 45000;
  a.required_cycles = 150000;
  a.verdict = Verdict::fail;
  a.notes = {"sheared edge"};
  HotSpot b = a;
  b.id = 2;
  b.feature = "weld toe disc";
  b.error_percent = -1;
  b.life_p50 = b.life_design = infinity;
  b.verdict = Verdict::pass;
  HotSpot c = a;
  c.id = 3;
  c.feature = "border of the bonded hub face, half a thickness away";
  c.verdict = Verdict::not_rated;
  r.hot_spots = {a, b, c};
  r.tests = {sample_verdict("rotating bending", "rotating_bending", 2310.5, "N m", 150000, 45000),
             sample_verdict("radial", "radial", 11200, "N", 1e6, infinity)};
  r.tests[0].confidence = "second-hand";
  r.tests[0].wheels = 2;
  r.tests[0].pass_probability = r.tests[0].pass_lognormal = 0.81;
  r.tests[0].pass_weibull = 0.83;
  r.tests[0].scatter_source = "common practice, no source";
  r.tests[0].failure_criterion = "crack";
  GaugeFigures g;
  g.name = "a gauge with a name that is far too long for its column of the table";
  g.test = "rotating bending";
  g.side = "outboard";
  g.r = 120.5;
  g.mean_microstrain = -123.4;
  g.amplitude_microstrain = 567.8;
  g.measured = true;
  g.measured_amplitude_microstrain = 590;
  g.trace = {-691.2, 444.4};
  r.gauges = {g};
  r.spectrum_turns = 1e6;
  r.spectrum = {{"vent edge with a long name outboard", "outboard", "parent metal",
                 "a block with a long name that is cut", 0.87, 120, 30, 40, 1.5e-4, 210, 30}};
  r.sensitivities = {{"rated load +10 %", "rotating bending", 28000, 0.62, Verdict::fail},
                     {"vent edges reamed", "radial", infinity, 1, Verdict::pass}};
  r.assumptions = {"sheared-edge factor 0.8 (from memory)", "density 7850 kg/m3 (found)"};
  r.cautions = standing_cautions();
  return r;
}

}  // namespace felloe::test
