// SPDX-License-Identifier: GPL-3.0-or-later
// Mean-stress rules as rows of one table, and the constants that they and the criteria use. A new
// rule is one row in mean_stress.cc and one test.
#pragma once
#include <string>
#include <vector>

#include "solver/material.h"

namespace felloe {

struct MeanStressRule;

/// Constants of a material that criteria and mean-stress rules may use. A criterion or rule whose
/// constant is not set (0) throws Error or says what it does instead.
struct FatigueConstants {
  double limit_bending = 0;            ///< f, fully reversed normal stress amplitude [MPa]
  double limit_torsion = 0;            ///< t, fully reversed shear stress amplitude [MPa]
  double mean_stress_sensitivity = 0;  ///< M of the FKM guideline [-]
  double tensile_strength = 0;         ///< Rm [MPa]
  double yield_strength = 0;           ///< [MPa]
  double strength_coefficient = 0;     ///< sf' of the strain-life curve [MPa]
  double walker_exponent = 0;          ///< g; 0.5 is the rule of Smith, Watson and Topper [-]
  /// What criteria of normal stress correct their mean with; none: FKM.
  const MeanStressRule *mean_stress = nullptr;
};

/// Fully reversed amplitude that is as damaging as an amplitude about a mean.
struct MeanStressRule {
  std::string name, summary;
  /// Grows with the amplitude, does not fall with the mean, gives the amplitude at mean 0 and
  /// nothing without amplitude. Stresses in MPa.
  double (*equivalent)(double amplitude, double mean, const FatigueConstants &) = nullptr;
  std::string source, confidence;
};

const std::vector<MeanStressRule> &mean_stress_rules();
const MeanStressRule &mean_stress_rule(const std::string &name);  ///< Error lists the names
/// The rule of a run that names none: FKM.
const MeanStressRule &default_mean_stress_rule();

/// With the rule of the constants.
double fully_reversed_amplitude(double amplitude, double mean, const FatigueConstants &);

/// f = f_W Rm, t = f_W,tau f (0.577 f for steel), M: FKM guideline, 97.5 % survival. sf' = 1.5 Rm
/// of steel, 1.67 Rm of aluminium: uniform material law. g = 0.8818 - 2e-4 Rm of steel (Dowling et
/// al. 2009, from memory, kept within 0.4 ... 0.8), 0.5 of aluminium (assumption on the safe side).
FatigueConstants fatigue_constants(const Material &);

}  // namespace felloe
