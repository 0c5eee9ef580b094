// SPDX-License-Identifier: GPL-3.0-or-later
// From the hot spots of a rig test to what a sweep keeps of it.
#pragma once
#include "cli/case.h"
#include "cli/sweep/design_figures.h"
#include "post/hot_spots.h"

namespace felloe {

/// The first of the sorted hot spots; not rated when there is none.
TestFigures test_figures(const std::string &test, const std::vector<HotSpot> &sorted,
                         double required_cycles);

/// Pass when all passed, fail when one failed.
Verdict verdict_of(const std::vector<TestFigures> &);

}  // namespace felloe
