// SPDX-License-Identifier: GPL-3.0-or-later
// Lives and verdict of one hot spot.
#include "post/rating.h"

namespace felloe {

std::string to_string(Verdict verdict) {
  switch (verdict) {
    case Verdict::pass:
      return "pass";
    case Verdict::fail:
      return "fail";
    default:
      return "not rated";
  }
}

double allowed_stress(const SnCurve &curve, double survival, double cycles) {
  return amplitude_for_life(curve, cycles, survival) / (curve.stress_range ? 2 : 1);
}

void rate(HotSpot &spot, const SnCurve &curve, double survival, double required_cycles) {
  const double stress = (curve.stress_range ? 2 : 1) * spot.fully_reversed;
  spot.curve = curve.name;
  spot.sn = curve;
  spot.life_p50 = cycles_to_failure(curve, stress, 0.5);
  spot.life_design = cycles_to_failure(curve, stress, survival);
  spot.required_cycles = required_cycles;
  spot.allowed = allowed_stress(curve, survival, required_cycles);
  SnCurve law = curve;
  law.scatter = LifeScatter::lognormal;
  spot.survival_lognormal = survival_at(law, stress, required_cycles);
  law.scatter = LifeScatter::weibull;
  spot.survival_weibull = survival_at(law, stress, required_cycles);
  spot.survival = survival_at(curve, stress, required_cycles);
  spot.scatter_source = curve.scatter_source;
  spot.verdict = spot.life_design >= required_cycles ? Verdict::pass : Verdict::fail;
}

}  // namespace felloe
