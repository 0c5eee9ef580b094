// SPDX-License-Identifier: GPL-3.0-or-later
// Rig-test programmes as rows of one table: load formula, factors, cycles, source, confidence.
#pragma once
#include <string>
#include <vector>

namespace felloe {

enum class RigTestKind { rotating_bending, radial };

/// One row. Every number is a default that the case may override; its source is printed with it.
struct RigTest {
  std::string name, summary;
  RigTestKind kind = RigTestKind::rotating_bending;
  double friction = 0;          ///< mu of M = (mu R + d) F S; bending only [-]
  double load_factor = 0;       ///< S (bending) or K (radial) [-]
  double load_share = 1;        ///< share of the computed moment, for example 0.75 [-]
  bool dynamic_radius = false;  ///< R is the rolling radius instead of the static loaded one
  double cycles = 0;            ///< required cycles; 0: from distance_km
  double distance_km = 0;       ///< radial: rolling distance, cycles = distance / (2 pi r_dyn)
  std::string source;
  std::string confidence;         ///< "found", "second-hand", "from memory", "own value"
  int wheels = 1;                 ///< that run the test; all have to pass
  bool cycles_for_seven = false;  ///< `cycles` hold for seven wheels: fewer must run longer
  std::string failure{};          ///< what ends a test as failed; empty: a crack
};

const std::vector<RigTest> &rig_tests();
const RigTest &rig_test(const std::string &name);  ///< Error lists the names

/// Rated load and tyre that a programme's formula needs.
struct RatedLoad {
  double load_kg = 0;              ///< static wheel load rating W [kg]
  double tyre_static_radius = 0;   ///< loaded radius [mm]
  double tyre_dynamic_radius = 0;  ///< rolling radius [mm]
  double inset = 0;                ///< d [mm], positive inset
};

constexpr double standard_gravity = 9.80665;  ///< [m/s2]

/// M = W g (mu R + d) S share [N mm].
double bending_moment(const RigTest &, const RatedLoad &);
/// F = W g K [N].
double radial_force(const RigTest &, const RatedLoad &);
/// Required cycles of the programme; by sample_size_cycles() where they hold for seven wheels.
double required_cycles(const RigTest &, const RatedLoad &);

/// Facts of the impact test kept for checks: striker mass 0.6 W + 180 kg (SAE J175, second-hand).
double impact_striker_mass(double load_kg);

/// What ends the test as failed, in words.
std::string failure_criterion(const RigTest &);

/// Probability that all n wheels reach the required life when one does with probability `survival`:
/// survival^n, the wheels' lives independent.
double all_pass(double survival, int wheels);

/// J267 sample-size rule: cycles for n wheels from those for 7,
/// N(n) = ceil(N7 sqrt(7/n) / 1000) 1000 (inferred from the published table).
double sample_size_cycles(double cycles_for_seven, int wheels);

}  // namespace felloe
