// SPDX-License-Identifier: GPL-3.0-or-later
// FKM constants and factors for non-welded metal.
#include "post/fkm.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "mesher/error.h"

namespace felloe {

const FkmConstants &fkm_constants(MaterialFamily family) {
  static const FkmConstants steel{0.45, 0.35, -0.10, 0.22, 400, 0.50, 2700, 0.577};
  static const FkmConstants wrought{0.30, 1.00, -0.04, 0.22, 133, 0.05, 850, 0.577};
  static const FkmConstants cast{0.30, 1.00, 0.20, 0.20, 133, -0.05, 3200, 0.75};
  switch (family) {
    case MaterialFamily::wrought_aluminium:
      return wrought;
    case MaterialFamily::cast_aluminium:
      return cast;
    default:
      return steel;
  }
}

double fatigue_strength(const Material &m) {
  return fkm_constants(m.family).fatigue_ratio * m.tensile_strength;
}

double roughness_factor(const Material &m, double rz) {
  if (rz <= 1) return 1;
  const auto &c = fkm_constants(m.family);
  const double strength_term = std::log10(2 * m.tensile_strength / c.roughness_strength);
  return 1 - c.roughness_a * std::log10(rz) * std::max(strength_term, 0.0);
}

double notch_support_factor(const Material &m, double gradient) {
  if (!(gradient >= 0 && gradient <= 100))
    throw Error("notch support: related stress gradient " + std::to_string(gradient) +
                " per mm: outside the rule; accepted are 0 to 100 per mm");
  const auto &c = fkm_constants(m.family);
  const double exponent = c.support_a + m.tensile_strength / c.support_b;
  if (gradient <= 0.1) return 1 + gradient * std::pow(10.0, 0.5 - exponent);
  const double power = gradient <= 1 ? 0.5 : 0.25;
  return 1 + std::pow(gradient, power) * std::pow(10.0, -exponent);
}

}  // namespace felloe
