// SPDX-License-Identifier: GPL-3.0-or-later
// S-N curves: straight lines in log-log with knees, lognormal scatter of life.
#pragma once
#include <string>
#include <vector>

#include "solver/material.h"

namespace felloe {

/// How lives scatter at one stress: log10 N normal, or N by Weibull's law with the same standard
/// deviation of log10 N (shape = pi / (sqrt 6 ln 10 deviation)).
enum class LifeScatter { lognormal, weibull };

/// N = knee_cycles (knee_amplitude / amplitude)^slope above the knee; below it slope_below
/// (0: infinite life) down to the cut-off. Amplitudes are fully reversed unless the curve says
/// range.
struct SnCurve {
  std::string name;
  double knee_amplitude = 0;  ///< at survival probability `survival` [MPa]
  double knee_cycles = 0;
  double slope = 0;               ///< k above the knee
  double slope_below = 0;         ///< k below the knee; 0: no failure
  double cutoff_cycles = 0;       ///< 0: none; no damage below the amplitude at this life
  double survival = 0.5;          ///< survival probability that the knee belongs to
  double log10_life_scatter = 0;  ///< standard deviation of log10 N [-]
  LifeScatter scatter = LifeScatter::lognormal;
  std::string scatter_source;  ///< where log10_life_scatter comes from
  bool stress_range = false;   ///< true: the knee and the argument are ranges (weld classes)
  std::string source, confidence;
  std::vector<std::string> assumptions;
};

/// Cycles to crack at the given survival probability; infinity when none. amplitude (or range)
/// [MPa]; zero or less never fails.
/// Another survival probability P than the curve's shifts the line above the knee in life by
/// (z(P) - z(survival)) log10_life_scatter, z the normal quantile. The knee keeps its life, so the
/// whole curve moves in stress by 1/k of that. Error unless 0 < survival < 1.
double cycles_to_failure(const SnCurve &, double amplitude, double survival);
/// Amplitude (or range) [MPa] that gives this life at this survival probability.
double amplitude_for_life(const SnCurve &, double cycles, double survival);

/// Share of parts that survive `cycles` at this amplitude (or range) [-]: the inverse of
/// cycles_to_failure(). Below a knee without failure it counts how far the stress lies below it.
/// Without scatter 1 or 0.
double survival_at(const SnCurve &, double amplitude, double cycles);

/// Synthetic curve of a sheet's face after the FKM guideline: sigma_W = f_W Rm, roughness factor
/// K_R(Rz), slope 5, knee 1e6 for steel. roughness Rz [um]. Edges and finishes: surface_state.h.
SnCurve parent_metal_curve(const Material &, double roughness_rz);

/// The program's sheared-edge factor when the case names none: an assumption, no single factor in
/// the literature; range 0.6 to 0.85 common practice, no source.
constexpr double standard_sheared_edge_factor = 0.75;

/// Which stress a weld class is for. A class of one kind with the stress of another is wrong by
/// factors.
enum class WeldStress { structural, nominal, effective_notch, shear };

/// Weld classes as rows: EN 1993-1-9 and IIW.
struct WeldClass {
  std::string name, summary;
  double range_at_2e6 = 0;  ///< [MPa], 95 % survival
  double knee_cycles = 0, slope = 0, slope_below = 0, cutoff_cycles = 0;
  std::string source, confidence;
  WeldStress stress = WeldStress::structural;
  double thickness_exponent = 0.3;  ///< of the thickness factor
  /// May be chosen for the structural stress at toes: made for it, or low enough.
  bool for_toes = true;
};
const std::vector<WeldClass> &weld_classes();
const WeldClass &weld_class(const std::string &name);
/// thickness [mm] of the plate that may crack; 0: not thicker than 25 mm.
SnCurve weld_curve(const WeldClass &, double thickness = 0);

/// Factor (25 / t)^exponent on a weld class for plates thicker than 25 mm, else 1 (IIW, from
/// memory; exponent 0.1 to 0.3 by joint). thickness [mm].
double weld_thickness_factor(double thickness, double exponent);

/// M = a_M 1e-3 Rm + b_M (FKM guideline), not below zero.
double mean_stress_sensitivity(const Material &);
/// FKM four-sector mean-stress correction: fully reversed amplitude equally damaging as
/// (amplitude, mean) [MPa].
double fully_reversed_amplitude(double amplitude, double mean, double mean_stress_sensitivity);

}  // namespace felloe
