// SPDX-License-Identifier: GPL-3.0-or-later
// Linear damage accumulation on an S-N curve (Palmgren-Miner).
#pragma once
#include <vector>

#include "post/rainflow.h"
#include "post/sn_curve.h"

namespace felloe {

/// What cycles below the knee do when larger ones have weakened the part.
enum class BelowKnee {
  as_curve,    ///< the curve's own slope; none: no damage
  continued,   ///< the line above the knee goes on (elementary rule, conservative)
  flat_branch  ///< slope 2 k - 1 (Haibach, from memory) where the curve itself ends at its knee
};

/// The curve with the rule put in. Its name and assumptions say so when it changes anything.
SnCurve for_spectrum(SnCurve, BelowKnee);

/// Damage of one cycle, 1 / N; 0 where the life is infinite. amplitude (or range) [MPa].
double damage_of_cycle(const SnCurve &, double amplitude, double survival);

/// D = sum n_i / N_i over amplitudes (or ranges, for curves of ranges) with their counts; failure
/// at D = 1 (critical sums down to 0.3 are known where the mean stress fluctuates: common
/// practice).
struct StressBlock {
  double stress = 0;  ///< fully reversed amplitude, or range for curves of ranges [MPa]
  double cycles = 0;
};
double miner_damage(const std::vector<StressBlock> &, const SnCurve &, double survival);

/// Damage of counted cycles [MPa] after the FKM mean-stress correction (M >= 0), or by their ranges
/// alone for curves of ranges.
double miner_damage(const std::vector<CountedCycle> &, const SnCurve &, double survival,
                    double mean_stress_sensitivity);

/// Constant stress with the same damage in the same number of cycles on a line of slope k without
/// knee: (sum n_i s_i^k / sum n_i)^(1/k) [MPa].
double equivalent_stress(const std::vector<StressBlock> &, double slope);

}  // namespace felloe
