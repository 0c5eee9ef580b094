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

/// Harmonics whose unknowns are related alike: up to eight (T: Lanes) or one (T: double).
template <class T>
class HarmonicSystem {
 public:
  /// Assembles and factors the reduced stiffness of every harmonic. Throws Error when a rigid
  /// motion is left free.
  HarmonicSystem(const HarmonicSection &, const std::vector<const HarmonicTask *> &);
  /// All loads, [harmonic][load]: displacement, adapter motion, residual, balance, energy; no
  /// stress. Throws Error when a check fails.
  std::vector<std::vector<HarmonicSolution>> solve() const;

 private:
  struct Sides;
  std::vector<int> groups() const;
  LanePlan plan() const;
  void assemble();
  void multiply(const LaneArray<T> &u, LaneArray<T> &f) const;
  void expand(const LaneArray<T> &q, LaneArray<T> &u) const;
  LaneArray<T> reduced(const LaneArray<T> &forces, const Sides &) const;
  Sides sides(std::size_t pass) const;
  LaneArray<T> remainder(Sides &) const;
  void solve(std::vector<Sides> &, LaneArray<T> Sides::*) const;
  HarmonicSolution checked(std::size_t lane, const Sides &) const;
  void check_balance(HarmonicSolution &, std::size_t lane, const Sides &) const;

  const HarmonicSection &section_;
  std::vector<const HarmonicTask *> tasks_;
  const HarmonicConstraints &relations_;  ///< of the first: the same in all
  T n_{}, factor_of_theta_{};
  std::unique_ptr<LaneCholesky<T>> factor_;
};

/// Whether two harmonics can be solved side by side.
bool alike(const HarmonicConstraints &, const HarmonicConstraints &, std::size_t n_unknowns);

}  // namespace felloe::detail
