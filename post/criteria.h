// SPDX-License-Identifier: GPL-3.0-or-later
// Multiaxial fatigue criteria as rows of one table. A new criterion is one row and one test.
#pragma once
#include <functional>
#include <string>
#include <vector>

#include "post/mean_stress.h"
#include "post/stress_history.h"

namespace felloe {

/// Result of a criterion at a point: amplitude and mean of the governing stress component, and the
/// fully reversed normal-stress amplitude that is equally damaging: a bar in tension and
/// compression (R = -1) of amplitude s gives s under every criterion. The row's summary says which
/// component governs. A history that stands still gives zero; an undefined stress is an Error.
struct EquivalentStress {
  double amplitude = 0;         ///< [MPa]
  double mean = 0;              ///< [MPa]
  double fully_reversed = 0;    ///< [MPa]; compared with the S-N curve at R = -1
  Vec3 plane_normal{};          ///< of the governing plane; zero when there is none
  double normal_amplitude = 0;  ///< of the normal stress on that plane [MPa]
};

struct FatigueCriterion {
  std::string name, summary;
  /// Normal to a free surface may be passed; planes are searched in the whole space.
  std::function<EquivalentStress(const HarmonicHistory &, const FatigueConstants &)> harmonic;
  std::function<EquivalentStress(const SampledHistory &, const FatigueConstants &)> sampled;
  std::string source, confidence;
  /// The equivalent of a k-fold history is k-fold. No: the stress counts against a limit too.
  bool proportional = true;
  /// Corrects the mean of a stress by FatigueConstants::mean_stress; else it has a way of its own.
  bool takes_mean_stress_rule = false;
  /// What a report must say of this result; empty: nothing.
  std::string (*caution)(const EquivalentStress &) = nullptr;
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

}  // namespace felloe
