// SPDX-License-Identifier: GPL-3.0-or-later
// The strain gauges of a case: finding their place, reading them, their traces as a table.
#pragma once
#include <string>

#include "cli/analysis.h"
#include "post/turn_history.h"

namespace felloe {

/// Where the gauge sits, as text: gauges with the same one read the same.
std::string gauge_key(const GaugeInput &);

/// Throws Error naming every gauge of the case that cannot sit where it is asked to, before
/// anything is solved.
void check_gauges(Analysis &, const Case &);

/// Reads all gauges of the case under one test into the results.
void read_gauges(Analysis &, const Case &, const TurnHistory &);

/// Time traces as comma-separated text: test, gauge, angle of the load [deg], strain
/// [microstrain].
std::string gauge_traces(const Results &);

}  // namespace felloe
