// SPDX-License-Identifier: GPL-3.0-or-later
// One design of a sweep: how deep it is looked at, and what is kept of it.
#pragma once
#include <limits>
#include <memory>
#include <string>
#include <vector>

#include "cli/case.h"
#include "post/rating.h"

namespace felloe {

/// How deep a design is looked at.
enum class Depth {
  section,  ///< the section alone in harmonics, holes left out: for screening
  wheel     ///< the whole wheel in 3D, as in a run
};

/// The worst hot spot of one rig test, and its shortest life.
struct TestFigures {
  std::string test;                      ///< name in the case
  std::string feature;                   ///< of the worst hot spot
  double stress_MPa = 0;                 ///< fully reversed, what meets the curve
  double allowed_stress_MPa = 0;         ///< whose design life is the required number of cycles
  double error_percent = -1;             ///< of the stress; < 0: not estimated
  double life_p50 = 0, life_design = 0;  ///< of the hot spot with the shortest life
  double required_cycles = 0;
  Verdict verdict = Verdict::not_rated;
};

/// Allowed stress over the worst one [-]; infinite where nothing was rated.
inline double stress_margin(const TestFigures &t) {
  return t.stress_MPa > 0 && t.allowed_stress_MPa > 0 ? t.allowed_stress_MPa / t.stress_MPa
                                                      : std::numeric_limits<double>::infinity();
}

struct DesignFigures {
  double mass_kg = 0, disc_mass_kg = 0;
  double tilt_Nm_per_deg = 0, axial_N_per_mm = 0, radial_N_per_mm = 0;
  std::vector<TestFigures> tests;        ///< in the order of the case
  Verdict verdict = Verdict::not_rated;  ///< pass: every test passed
  long dofs = 0;
  double setup_seconds = 0;  ///< layout, mesh, rated places; the solver's own is in solve_seconds
  double solve_seconds = 0, rating_seconds = 0;
};

/// Evaluates one design after another; may keep what neighbours have in common (topology of the
/// mesh, numbering, symbolic analysis) and uses it again while only the map changes. Never changes
/// a result by more than rounding. One object a thread of work.
class DesignEvaluator {
 public:
  explicit DesignEvaluator(Depth);
  ~DesignEvaluator();
  /// Throws Error when the design cannot be laid out, meshed or solved.
  DesignFigures evaluate(const Case &);

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace felloe
