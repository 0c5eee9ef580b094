// SPDX-License-Identifier: GPL-3.0-or-later
// How likely rig tests are passed when sheet, torque, load and fatigue strength scatter.
#pragma once
#include <string>
#include <vector>

#include "cli/sweep/ranking.h"

namespace felloe {

/// An estimated probability with its confidence interval.
struct Probability {
  double estimate = 0, low = 0, high = 1;
};

/// Share of successes of n independent trials with the Clopper-Pearson interval (Biometrika 26,
/// 1934; Boost.Math). confidence: for example 0.95.
Probability share_of(long successes, long trials, double confidence);

/// Probability that one wheel of this design lives for the required cycles: lognormal life with the
/// median life_p50; its scatter is the one that life_design, rated at `survival`, implies. Error
/// when survival is 50 %, which implies none.
double chance_to_pass(const TestFigures &, double survival);

/// A bar of the tornado: what one standard deviation of a key changes.
struct Influence {
  std::size_t key = 0;
  double stress_percent = 0;  ///< of the mean stress, by linear regression on the key alone
};
/// For the test at this place; keys that are numbers, strongest first.
std::vector<Influence> influences(const SweepHead &, const Designs &, std::size_t test);

/// For each rig test and all of them: the chance to pass with its 95 % interval, and the tornado.
/// Each design is one wheel, its fatigue strength drawn at random (fixed seed), independently for
/// each test. survival: to which life_design belongs, 0 to 1. Error when nothing is rated.
std::string scatter_report(const SweepHead &, const Designs &, double survival);

}  // namespace felloe
