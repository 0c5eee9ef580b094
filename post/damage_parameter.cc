// SPDX-License-Identifier: GPL-3.0-or-later
// Constants and lives of the damage-parameter curve.
#include "post/damage_parameter.h"

#include <cmath>
#include <limits>

namespace felloe {

double DamageParameterCurve::endurance_cycles() const {
  return knee_cycles * std::pow(endurance / knee, 1 / slope_long);
}

double DamageParameterCurve::cycles(double parameter) const {
  if (parameter < endurance) return std::numeric_limits<double>::infinity();
  return knee_cycles *
         std::pow(parameter / knee, 1 / (parameter > knee ? slope_short : slope_long));
}

DamageParameterCurve damage_parameter_curve(const Material &m) {
  const double rm = m.tensile_strength;
  if (m.family == MaterialFamily::steel)
    return {20 * std::pow(rm, 0.587), 1000, 0.82 * std::pow(rm, 0.92), -0.302, -0.197};
  return {16.71 * std::pow(rm, 0.537), 1000, 0.30 * rm, -0.238, -0.167};
}

}  // namespace felloe
