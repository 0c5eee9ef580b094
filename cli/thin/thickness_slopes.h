// SPDX-License-Identifier: GPL-3.0-or-later
// How the rated stresses follow the thickness of the disc's sheet.
#pragma once
#include "cli/case.h"
#include "cli/sensitivity.h"

namespace felloe {

/// Mesh density of the one solve behind them.
constexpr double slope_density = 0.4;

/// d ln(stress) / d ln(thickness) of every place that has at least a tenth of its allowed
/// stress, the whole disc growing in proportion: one solve of a coarse mesh with its semi-analytic
/// gradient (ThinModel). Empty when the hub is in contact, which that model does not know.
StressSlopes thickness_slopes(const Case &);

}  // namespace felloe
