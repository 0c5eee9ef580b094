// SPDX-License-Identifier: GPL-3.0-or-later
// An S-N line from lives on the rig, run-outs included.
#pragma once
#include <string>
#include <vector>

#include "post/censored_fit.h"
#include "post/sn_curve.h"

namespace felloe {

/// One test: constant load, cycles to failure, or at which it ended unbroken.
struct RigLife {
  double load = 0;  ///< stress amplitude or range [MPa], moment [N m], force [N]
  double cycles = 0;
  bool run_out = false;
};

/// log10 N = a - k log10(load / reference) + scatter; the same scatter at every load.
struct LivesFit {
  LifeScatter distribution = LifeScatter::lognormal;
  double reference = 0;  ///< geometric mean of the loads
  double a = 0, slope = 0;
  double scale = 0;           ///< of log10 N: standard deviation, or 1 / (shape ln 10) for Weibull
  double log_likelihood = 0;  ///< of log10 N
  Bounds slope_bounds, deviation_bounds;  ///< of k; of the standard deviation of log10 N
  double confidence = 0;
  int failures = 0, run_outs = 0;
  double smallest_load = 0, largest_load = 0, largest_cycles = 0;

  /// Standard deviation of log10 N; for Weibull pi / sqrt 6 of the scale.
  double deviation() const;
};

/// Maximum likelihood; bounds by likelihood ratio (slope) and from the curvature of the likelihood
/// in the logarithm of the scale (deviation). Weibull: location is the life of 63.2 %.
/// Error as censored_fit(), and when longer lives come with higher loads.
LivesFit fit_lives(const std::vector<RigLife> &, LifeScatter, double confidence);

/// Life that the share `survival` reaches at a load.
double life_at(const LivesFit &, double load, double survival);
/// Load at which that share reaches the life.
double load_at(const LivesFit &, double cycles, double survival);
/// Where life_at() lies with the fit's two-sided confidence, by likelihood ratio.
Bounds life_bounds(const LivesFit &, const std::vector<RigLife> &, double load, double survival);

/// The curve for a case: median line with its knee at the largest cycles of the sample, line
/// continued below it, since the sample says nothing there. Loads must be stresses [MPa].
SnCurve curve_of(const LivesFit &, const std::string &name, bool stress_range,
                 const std::string &source);

}  // namespace felloe
