// SPDX-License-Identifier: GPL-3.0-or-later
// A run's unit histories kept for rating again, and taken up again.
#pragma once
#include <string>

#include "cli/analysis.h"
#include "cli/unit_solutions.h"
#include "post/stored_histories.h"

namespace felloe {

constexpr const char *histories_file = "histories.bin";

/// Unit histories of all rated nodes, those round them and those under gauges, and the run's
/// figures of mass, stiffness and mesh.
StoredHistories store_run(Analysis &, const Case &, const UnitSolutions &);

/// An analysis and unit solutions on the stored nodes alone: what rate_all_tests() needs.
struct RestoredRun {
  Analysis analysis;
  UnitSolutions units;
};
/// stored_case: the case of the run; now: the case to rate, which may differ from it in loads that
/// only scale (torque or preload, interference, inflation), in strengths and in what rates. Throws
/// Error when it differs in anything that needs a solve.
RestoredRun restore_run(StoredHistories, const Case &stored_case, const Case &now);

}  // namespace felloe
