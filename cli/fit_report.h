// SPDX-License-Identifier: GPL-3.0-or-later
// What an evaluation of rig lives found, as text, JSON and a section of a case.
#pragma once
#include <string>
#include <vector>

#include "cli/case.h"
#include "post/lives_fit.h"
#include "post/staircase.h"

namespace felloe {

/// What the loads of a table are.
struct LoadUnit {
  std::string column;  ///< "amplitude_MPa"
  std::string what;    ///< "stress amplitude"
  std::string unit;    ///< "MPa"
  bool stress = false, range = false;
};

struct FitReport {
  std::string file;
  LoadUnit load;
  double survival = 0.9;
  LivesFit fit, other;  ///< the asked law of scatter, and the other one for comparison
  bool has_other = false;
  std::vector<RigLife> lives;
};

std::string fit_text(const FitReport &);
std::string fit_json(const FitReport &);

std::string staircase_text(const StaircaseEvaluation &, const std::vector<StaircaseTest> &,
                           const std::string &file, const LoadUnit &, double survival,
                           double confidence);
std::string staircase_json(const StaircaseEvaluation &, const std::string &file, const LoadUnit &,
                           double survival, double confidence);

/// A [[sn_curve]] section for a case file.
std::string curve_section(const CurveInput &);

}  // namespace felloe
