// SPDX-License-Identifier: GPL-3.0-or-later
// Multiaxial fatigue criteria as rows of one table. A new criterion is one row and one test.
#pragma once
#include <functional>
#include <string>
#include <vector>

#include "post/stress_history.h"
#include "solver/material.h"

namespace felloe {

/// Constants of the material that criteria may use. All from two fatigue limits and M.
struct FatigueConstants {
  double limit_bending = 0;            ///< f, fully reversed normal stress amplitude [MPa]
  double limit_torsion = 0;            ///< t, fully reversed shear stress amplitude [MPa]
  double mean_stress_sensitivity = 0;  ///< M of the FKM guideline [-]
};

/// Result of a criterion at a point: amplitude and mean of the governing stress component, and the
/// fully reversed normal-stress amplitude that is equally damaging: a bar in tension and
/// compression (R = -1) of amplitude s gives s under every criterion. The row's summary says which
/// component governs. A history that stands still gives zero; an undefined stress is an Error.
struct EquivalentStress {
  double amplitude = 0;       ///< [MPa]
  double mean = 0;            ///< [MPa]
  double fully_reversed = 0;  ///< [MPa]; compared with the S-N curve at R = -1
  Vec3 plane_normal{};        ///< of the governing plane; zero when there is none
};

struct FatigueCriterion {
  std::string name, summary;
  /// Normal to a free surface may be passed; planes are searched in the whole space.
  std::function<EquivalentStress(const HarmonicHistory &, const FatigueConstants &)> harmonic;
  std::function<EquivalentStress(const SampledHistory &, const FatigueConstants &)> sampled;
  std::string source, confidence;
  /// The same for many points, in order, on the calling thread: where planes are searched, much
  /// faster than one point after the other.
  std::function<std::vector<EquivalentStress>(const std::vector<HarmonicHistory> &,
                                              const FatigueConstants &)>
      many_harmonic{};
  std::function<std::vector<EquivalentStress>(const std::vector<SampledHistory> &,
                                              const FatigueConstants &)>
      many_sampled{};
};

const std::vector<FatigueCriterion> &fatigue_criteria();
const FatigueCriterion &fatigue_criterion(const std::string &name);  ///< Error lists the names
/// The criterion of a run that names none.
const FatigueCriterion &default_criterion();

/// f = f_W Rm, t = f_W,tau f (0.577 f for steel), M; FKM guideline, 97.5 % survival.
FatigueConstants fatigue_constants(const Material &);

}  // namespace felloe
