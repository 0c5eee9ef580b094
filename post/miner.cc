// SPDX-License-Identifier: GPL-3.0-or-later
// Linear damage accumulation.
#include "post/miner.h"

#include <cmath>

namespace felloe {

SnCurve for_spectrum(SnCurve curve, BelowKnee rule) {
  const bool ends = curve.slope_below == 0;
  if (rule == BelowKnee::continued) {
    curve.slope_below = curve.slope;
    curve.cutoff_cycles = 0;
    curve.assumptions.push_back(
        "spectrum: the line above the knee goes on below it (elementary "
        "Miner rule)");
  } else if (rule == BelowKnee::flat_branch && ends) {
    curve.slope_below = 2 * curve.slope - 1;
    curve.assumptions.push_back("spectrum: slope 2 k - 1 below the knee (Haibach, from memory)");
  }
  return curve;
}

double damage_of_cycle(const SnCurve &curve, double amplitude, double survival) {
  return 1 / cycles_to_failure(curve, amplitude, survival);
}

double miner_damage(const std::vector<StressBlock> &blocks, const SnCurve &curve, double survival) {
  double damage = 0;
  for (const StressBlock &b : blocks)
    damage += b.cycles * damage_of_cycle(curve, b.stress, survival);
  return damage;
}

double miner_damage(const std::vector<CountedCycle> &cycles, const SnCurve &curve, double survival,
                    double mean_stress_sensitivity) {
  double damage = 0;
  for (const CountedCycle &c : cycles) {
    const double stress = curve.stress_range ? c.range
                                             : fully_reversed_amplitude(0.5 * c.range, c.mean,
                                                                        mean_stress_sensitivity);
    damage += c.count * damage_of_cycle(curve, stress, survival);
  }
  return damage;
}

double equivalent_stress(const std::vector<StressBlock> &blocks, double slope) {
  double sum = 0, cycles = 0;
  for (const StressBlock &b : blocks) {
    sum += b.cycles * std::pow(b.stress, slope);
    cycles += b.cycles;
  }
  return cycles > 0 ? std::pow(sum / cycles, 1 / slope) : 0;
}

}  // namespace felloe
