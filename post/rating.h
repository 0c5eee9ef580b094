// SPDX-License-Identifier: GPL-3.0-or-later
// From equivalent stress to life and verdict.
#pragma once
#include <string>
#include <vector>

#include "mesher/mesh.h"
#include "post/criteria.h"
#include "post/sn_curve.h"

namespace felloe {

enum class Verdict { pass, fail, not_rated };
std::string to_string(Verdict);

/// A rated place of the wheel under one rig test.
struct HotSpot {
  int id = 0;
  std::string feature;  ///< "vent edge outboard", "weld toe disc", ...
  std::string test;     ///< name of the rig test in the case
  Vec3 position{};      ///< [mm]
  double r = 0, theta_deg = 0, z = 0;
  std::string side;                ///< "outboard", "inboard", "edge", "tyre side", ...
  double mean = 0, amplitude = 0;  ///< of the governing component [MPa]
  double fully_reversed = 0;       ///< what meets the curve (weld: amplitude of the range) [MPa]
  double error_percent = -1;       ///< of the stress; < 0: not estimated
  double allowed = 0;  ///< fully reversed, with the required cycles as design life [MPa]
  std::string criterion, curve;
  SnCurve sn;              ///< that it was rated with, all factors in it
  Part part = Part::disc;  ///< that would crack
  /// Normal stress that amplitude and mean belong to, at even angles of the load from 0 [MPa].
  std::vector<double> turn;
  double life_p50 = 0, life_design = 0, required_cycles = 0;
  Verdict verdict = Verdict::not_rated;
  /// Share of wheels that reach the required cycles at this place, by the curve's law of scatter
  /// and by both laws with its standard deviation; negative: not rated.
  double survival = -1, survival_lognormal = -1, survival_weibull = -1;
  std::string scatter_source;
  std::vector<std::string> notes;
};

/// Share of the allowed stress that is used [-]: above 1 exactly where the design life is shorter
/// than required; 1 / utilisation is the factor that stress may still grow by. "Degree of
/// utilisation" of the FKM guideline. 0: without a curve.
inline double utilisation(const HotSpot &spot) {
  return spot.allowed > 0 ? spot.fully_reversed / spot.allowed : 0;
}

/// Amplitude [MPa] whose life at this survival probability is `cycles`, also for curves of ranges.
double allowed_stress(const SnCurve &, double survival, double cycles);

/// Fills lives and verdict from `fully_reversed` and the curve.
/// survival: the asked survival probability of life_design. verdict pass: life_design >= required.
void rate(HotSpot &, const SnCurve &, double survival, double required_cycles);

}  // namespace felloe
