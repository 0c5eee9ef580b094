// SPDX-License-Identifier: GPL-3.0-or-later
// The service spectrum of a case on its unit solutions.
#pragma once
#include "cli/analysis.h"
#include "cli/unit_solutions.h"

namespace felloe {

/// Reads the time series of the case's spectrum. Throws Error as CsvTable, before anything is
/// solved.
void check_spectrum(const Case &);

/// Where a time series of the case lies: beside the case file unless its path is absolute.
std::string series_path(const Case &, const SpectrumInput &);

/// Puts the damage of every rated place by one pass of the spectrum into the results; nothing when
/// the case has none. Clamp, press fit and inflation act all the time; in every turn the radial
/// force rolls round the rim, and the lateral force tilts the wheel at the same angle with the
/// static radius as lever. Its axial share is left out (small against its moment).
void rate_spectrum(Analysis &, const Case &, const UnitSolutions &, Progress &);

}  // namespace felloe
