// SPDX-License-Identifier: GPL-3.0-or-later
// Mean-stress correction of the FKM guideline, four sectors of the stress ratio R.
#include <algorithm>

#include "post/fkm.h"
#include "post/sn_curve.h"

namespace felloe {

double mean_stress_sensitivity(const Material &material) {
  const auto &c = fkm_constants(material.family);
  // Negative below Rm = 286 MPa of steel: a compressive mean would harm.
  return std::max(0.0, c.mean_a * 1e-3 * material.tensile_strength + c.mean_b);
}

// Slopes of the Haigh diagram: 0 for R > 1, M for R <= 0, M / 3 for 0 < R <= 0.5, 0 above.
double fully_reversed_amplitude(double amplitude, double mean, double m) {
  if (amplitude <= 0) return 0;
  if (mean < -amplitude) return amplitude * (1 - m);
  if (mean <= amplitude) return amplitude + m * mean;
  const double flat = (1 + m) / (1 + m / 3);
  if (mean <= 3 * amplitude) return (amplitude + m / 3 * mean) * flat;
  return amplitude * (1 + m) * flat;
}

}  // namespace felloe
