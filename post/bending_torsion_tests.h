// SPDX-License-Identifier: GPL-3.0-or-later
// Published endurance limits of bars under bending and torsion, and how far each criterion is off:
// the evidence that the default criterion is chosen by.
#pragma once
#include <string>
#include <vector>

#include "post/criteria.h"

namespace felloe {

/// sx = sm + sa cos(phi), txy = tm + ta cos(phi - phase) at the endurance limit [MPa, deg].
struct BendingTorsionTest {
  double sa = 0, sm = 0, ta = 0, tm = 0, phase = 0;
};
HarmonicHistory history_of(const BendingTorsionTest &);

/// Tests of one steel and its own fully reversed limits in bending and in torsion alone.
struct BendingTorsionSeries {
  std::string name;
  FatigueConstants constants;
  bool with_static_stress = false;
  std::vector<BendingTorsionTest> tests;
  std::string source, confidence;
};
const std::vector<BendingTorsionSeries> &bending_torsion_series();

/// Of equivalent stress over limit - 1, in percent: a perfect criterion has 0 everywhere. Negative
/// is on the unsafe side.
struct CriterionErrors {
  int n = 0;
  double mean = 0, mean_size = 0;  ///< of the errors, of their sizes
  double scatter = 0;              ///< standard deviation of a sample
  double lowest = 0, highest = 0;
};
/// Over all series without, or all with, static stress.
CriterionErrors errors_on_published_tests(const FatigueCriterion &, bool with_static_stress);

/// Why the default criterion is the default: one sentence with its figures.
std::string why_default_criterion();

}  // namespace felloe
