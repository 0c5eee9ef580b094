// SPDX-License-Identifier: GPL-3.0-or-later
// Life by a damage parameter of local stress and strain, after the FKM guideline non-linear.
#pragma once
#include "solver/material.h"

namespace felloe {

/// Two straight lines in log-log that meet at the knee, down to an endurance limit. Amplitudes,
/// 50 % survival. P = root of (sa + k sm) ea E, for sm = 0: root of sa ea E [MPa].
struct DamageParameterCurve {
  double knee = 0;            ///< P at knee_cycles [MPa]
  double knee_cycles = 1000;  ///< [cycles]
  double endurance = 0;       ///< P below which nothing fails [MPa]
  double slope_short = 0;     ///< d1 of P ~ N^d1 below knee_cycles [-]
  double slope_long = 0;      ///< d2 beyond [-]
  double endurance_cycles() const;
  double cycles(double parameter) const;  ///< infinite below the endurance limit
};

/// Steel and aluminium: knee 20 Rm^0.587 and 16.71 Rm^0.537, endurance 0.82 Rm^0.92 and 0.30 Rm,
/// d1 -0.302 and -0.238, d2 -0.197 and -0.167. Source: FKM guideline non-linear, as a public
/// library implements it (found second-hand, verify).
DamageParameterCurve damage_parameter_curve(const Material &);

}  // namespace felloe
