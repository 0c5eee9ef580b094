// SPDX-License-Identifier: GPL-3.0-or-later
// The equations of up to eight harmonics side by side, one in each SIMD lane, with their factors
// and the checks of every solution.
#pragma once
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "solver/detail/harmonic_constraints.h"
#include "solver/detail/harmonic_element.h"
#include "solver/detail/lane_cholesky.h"

namespace felloe::detail {

/// How messages name a load.
std::string place_of(const HarmonicLoad &);

/// One section, ready for every harmonic.
struct HarmonicSection {
  HarmonicSection(SectionMesh, const std::map<Part, Material> &);
  SectionMesh mesh;
  std::vector<HarmonicCell> cells;
};

/// A load with its nodal forces.
struct HarmonicForces {
  const HarmonicLoad *load = nullptr;
  std::vector<double> forces;
};

/// A harmonic with its relations between unknowns and its loads.
struct HarmonicTask {
  int n = 0;
  std::unique_ptr<HarmonicConstraints> constraints;
  std::vector<HarmonicForces> loads;
};

/// Harmonics whose unknowns are related alike.
class HarmonicSystem {
 public:
  /// Assembles and factors T^T K T of one to eight harmonics. Throws Error when a rigid motion is
  /// left free.
  HarmonicSystem(const HarmonicSection &, const std::vector<const HarmonicTask *> &);
  /// Load number `pass` of every harmonic, in their order (an empty solution where a harmonic has
  /// fewer): displacement, adapter motion, residual, balance, energy; no stress. Throws Error when
  /// a check fails.
  std::vector<HarmonicSolution> solve(std::size_t pass) const;

 private:
  struct Sides;
  std::vector<int> groups() const;
  LanePlan plan() const;
  void assemble();
  void multiply(const LaneArray &u, LaneArray &f) const;
  void expand(const LaneArray &q, LaneArray &u) const;
  LaneArray reduced(const LaneArray &forces, const Sides &) const;
  HarmonicSolution checked(std::size_t lane, const Sides &) const;
  void check_balance(HarmonicSolution &, std::size_t lane, const Sides &) const;

  const HarmonicSection &section_;
  std::vector<const HarmonicTask *> tasks_;
  const HarmonicConstraints &relations_;  ///< of the first: the same in all
  Lanes n_, factor_of_theta_;
  std::unique_ptr<LaneCholesky> factor_;
};

/// Whether two harmonics can be solved side by side.
bool alike(const HarmonicConstraints &, const HarmonicConstraints &, std::size_t n_unknowns);

}  // namespace felloe::detail
