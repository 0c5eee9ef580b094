// SPDX-License-Identifier: GPL-3.0-or-later
// Stress and strain of a notch that yields, from the elastic answer: cyclic curves, Neuber's rule,
// strain-life. Estimates of the constants are rows of one table.
#pragma once
#include <string>
#include <vector>

#include "solver/material.h"

namespace felloe {

/// Ramberg and Osgood: strain = s / E + (s / K')^(1 / n') of amplitudes.
struct CyclicCurve {
  double youngs_modulus = 0;  ///< E [MPa]
  double coefficient = 0;     ///< K' [MPa]
  double exponent = 0;        ///< n' [-]
  double strain(double stress) const;
};

/// Coffin, Manson and Basquin: strain amplitude = sf' / E (2 N)^b + ef' (2 N)^c, 50 % survival.
struct StrainLife {
  double strength_coefficient = 0;   ///< sf' [MPa]
  double strength_exponent = 0;      ///< b [-]
  double ductility_coefficient = 0;  ///< ef' [-]
  double ductility_exponent = 0;     ///< c [-]
  double strain_amplitude(double youngs_modulus, double cycles) const;
};

struct CyclicConstants {
  CyclicCurve curve;
  StrainLife life;
};

/// sf' 1.5 Rm, b -0.087, ef' 0.59 psi, c -0.58, K' 1.65 Rm, n' 0.15, psi = 1 for Rm / E <= 0.003,
/// else 1.375 - 125 Rm / E, of steel; 1.67 Rm, -0.095, 0.35, -0.69, 1.61 Rm, 0.11 of aluminium.
/// Source: uniform material law, Baeumel and Seeger 1990, from memory.
CyclicConstants uniform_material_law(const Material &);

/// Estimates of the cyclic curve from the tensile strength. Strain-life of the uniform material
/// law.
struct CyclicEstimate {
  std::string name, summary;
  CyclicConstants (*constants)(const Material &);
  std::string source, confidence;
};
/// "uniform material law", "FKM non-linear".
const std::vector<CyclicEstimate> &cyclic_estimates();
const CyclicEstimate &cyclic_estimate(const std::string &name);  ///< Error lists the names

struct LocalState {
  double stress = 0;  ///< [MPa]
  double strain = 0;  ///< [-]
};
/// Neuber: stress times strain = (elastic stress)^2 / E, both on the cyclic curve. Amplitudes.
LocalState neuber(const CyclicCurve &, double elastic_stress);

enum class StrainLifeMean { none, morrow, smith_watson_topper };
/// Cycles at a local strain amplitude and local mean stress [MPa]; infinite above 1e12.
///   none:   strain amplitude = sf'/E (2N)^b + ef' (2N)^c
///   morrow: (sf' - sm) in place of sf'
///   smith_watson_topper: (sa + sm) ea E = sf'^2 (2N)^2b + sf' ef' E (2N)^(b+c)
double strain_life_cycles(const CyclicConstants &, const LocalState &amplitude, double mean_stress,
                          StrainLifeMean);

/// A one-component cycle after yielding.
struct YieldedCycle {
  LocalState largest, amplitude;
  double mean_stress = 0;  ///< [MPa]
  double cycles = 0;       ///< to a crack, 50 % survival, mean stress by Smith, Watson and Topper
  double cycles_morrow = 0;
};
/// Elastic amplitude and mean [MPa] of the governing component: the first loading follows the
/// cyclic curve, the cycle its doubled branch (Masing), both by Neuber's rule. Mean stress relaxes
/// only as far as the first loading yields.
YieldedCycle yielded_cycle(const CyclicConstants &, double elastic_amplitude, double elastic_mean);

/// Sentence for a report when the elastic stress passes yield; empty below it.
std::string yielding_note(const Material &, double elastic_amplitude, double elastic_mean);

}  // namespace felloe
