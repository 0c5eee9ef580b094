// SPDX-License-Identifier: GPL-3.0-or-later
// The rows of the table of mean-stress rules, and the constants by material.
#include "post/mean_stress.h"

#include <algorithm>
#include <cmath>

#include "mesher/error.h"
#include "post/fkm.h"
#include "post/local_strain.h"
#include "post/sn_curve.h"
#include "solver/nearest_name.h"

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

namespace {

// A mean that is the strength itself breaks the bar at once: a thousandfold amplitude says so and
// stays a number.
constexpr double least_reserve = 1e-3;

double needed(double constant, const char *what) {
  if (!(constant > 0))
    throw Error(std::string("mean-stress rule: the ") + what +
                " is not known: the rule needs it; give it with the material");
  return constant;
}

/// Used-up share of a strength; compression gains nothing.
double share(double mean, double strength) { return std::max(0.0, mean) / strength; }

double fkm(double a, double m, const FatigueConstants &c) {
  return fully_reversed_amplitude(a, m, c.mean_stress_sensitivity);
}
double linear(double a, double m, double strength) {
  return a / std::max(least_reserve, 1 - share(m, strength));
}
double goodman(double a, double m, const FatigueConstants &c) {
  return linear(a, m, needed(c.tensile_strength, "tensile strength"));
}
double gerber(double a, double m, const FatigueConstants &c) {
  const double x = share(m, needed(c.tensile_strength, "tensile strength"));
  return a / std::max(least_reserve, 1 - x * x);
}
double soderberg(double a, double m, const FatigueConstants &c) {
  return linear(a, m, needed(c.yield_strength, "yield strength"));
}
double morrow(double a, double m, const FatigueConstants &c) {
  return linear(a, m, needed(c.strength_coefficient, "fatigue strength coefficient"));
}
double smith_watson_topper(double a, double m, const FatigueConstants &) {
  return std::sqrt(std::max(0.0, a + m) * a);
}
double walker(double a, double m, const FatigueConstants &c) {
  const double g = needed(c.walker_exponent, "Walker exponent");
  return a + m <= 0 ? 0 : std::pow(a + m, 1 - g) * std::pow(a, g);
}

}  // namespace

const std::vector<MeanStressRule> &mean_stress_rules() {
  static const std::vector<MeanStressRule> rows = {
      {"FKM", "four sectors of the stress ratio R with the sensitivity M; no more than R = 0.5",
       fkm, "FKM guideline", "constants found second-hand, slopes from memory, verify"},
      {"Goodman", "sa / (1 - sm / Rm); compression gains nothing", goodman,
       "Goodman, modified; Shigley; Dowling", "from memory"},
      {"Gerber",
       "sa / (1 - (sm / Rm)^2), fits ductile metal in the mean; compression gains nothing", gerber,
       "Gerber; Shigley; Dowling", "from memory"},
      {"Soderberg", "sa / (1 - sm / Re), the most cautious; compression gains nothing", soderberg,
       "Soderberg; Shigley", "from memory"},
      {"Morrow", "sa / (1 - sm / sf'), sf' by the uniform material law; compression gains nothing",
       morrow, "Morrow; Dowling", "from memory"},
      {"SWT", "root of largest stress times amplitude; harmless where all is compression",
       smith_watson_topper, "Smith, Watson and Topper 1970", "from memory"},
      {"Walker", "smax^(1 - g) sa^g, g falls with the tensile strength of steel, 0.5 of aluminium",
       walker, "Walker 1970; g: Dowling, Calhoun and Arcari 2009", "from memory, verify"},
  };
  return rows;
}

const MeanStressRule &mean_stress_rule(const std::string &name) {
  std::vector<std::string> names;
  for (const auto &row : mean_stress_rules()) {
    if (row.name == name) return row;
    names.push_back(row.name);
  }
  throw Error(unknown_name("mean-stress rule", name, names));
}

const MeanStressRule &default_mean_stress_rule() { return mean_stress_rules().front(); }

double fully_reversed_amplitude(double amplitude, double mean, const FatigueConstants &c) {
  if (!(amplitude > 0)) return 0;
  return (c.mean_stress ? *c.mean_stress : default_mean_stress_rule())
      .equivalent(amplitude, mean, c);
}

FatigueConstants fatigue_constants(const Material &m) {
  const bool steel = m.family == MaterialFamily::steel;
  FatigueConstants c;
  c.limit_bending = fatigue_strength(m);
  c.limit_torsion = fkm_constants(m.family).shear_factor * c.limit_bending;
  c.mean_stress_sensitivity = mean_stress_sensitivity(m);
  c.tensile_strength = m.tensile_strength;
  c.yield_strength = m.yield_strength;
  c.strength_coefficient = uniform_material_law(m).life.strength_coefficient;
  c.walker_exponent = steel ? std::clamp(0.8818 - 2e-4 * m.tensile_strength, 0.4, 0.8) : 0.5;
  return c;
}

}  // namespace felloe
