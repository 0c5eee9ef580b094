// SPDX-License-Identifier: GPL-3.0-or-later
// The lightest thickness law that passes all rig tests of a case.
#pragma once
#include <functional>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "cli/accuracy.h"
#include "cli/thin/design_space.h"
#include "cli/thin/thin_model.h"

namespace felloe {

/// Stress that counts over that of the coarse mesh, of each place: finer mesh and error bar.
/// Key: feature, '|', rig test.
using StressFactors = std::map<std::string, double>;

/// Before anything was verified: 2 % for the error of the mesh (own value).
constexpr double first_stress_factor = 1.02;

/// One search on the coarse mesh. Objective: mass over that of the start; limits: stress of every
/// place times its factor over the allowed one, less 1, all sheet at its lower tolerance.
class ThinSearch {
 public:
  ThinSearch(const Case &, double density);
  const DesignSpace &space() const { return space_; }
  ThinModel &model() { return *model_; }
  double mass(const std::vector<double> &x) const;
  Evaluation evaluate(const std::vector<double> &x, bool gradients);
  /// base_sheet: thickness that the first station must have [mm]; 0: any.
  Optimum search(const std::vector<double> &start, int max_solves, double base_sheet = 0);
  StressFactors factors;  ///< may change between searches
  std::function<void(int solve, double mass, double worst)> report;

 private:
  double factor(const PlaceStress &) const;
  Case case_;
  DesignSpace space_;
  std::unique_ptr<ThinModel> model_;
  double unit_mass_ = 1;
};

/// A verified place: stress with error bar over the allowed one.
struct VerifiedPlace {
  std::string feature, test;
  double stress = 0, allowed = 0, error_percent = 0, share = 0;
};

struct ThinOutcome {
  std::vector<double> x;
  double first_mass = 0, mass = 0;  ///< disc and weld [kg]
  bool passes = false;              ///< all places, at lower tolerance with error bars
  int solves = 0, verifications = 0;
  std::vector<OptimumStep> steps;
  std::vector<PlaceStress> places;      ///< on the coarse mesh, with gradients
  std::vector<VerifiedPlace> verified;  ///< worst first
  std::vector<double> mass_gradient;    ///< [kg/mm]
  std::string ended;
  Results verification;  ///< the wheel at its lower tolerance, own density
};

/// The thinnest of the sheets on sale that is not thinner than `at_least` (by more than a
/// micrometre) [mm]; 0 when there is none.
double sheet_on_sale(std::vector<double> gauges, double at_least);

/// Searches at `density`, verifies at the case's own density with error bars, and corrects by the
/// ratio of both up to twice.
ThinOutcome thinnest(ThinSearch &, const Case &, int max_solves, Progress &);

/// Case of the design with stated thickness.
Case case_of(const Case &, const DesignSpace &, const std::vector<double> &x, double less = 0);

}  // namespace felloe
