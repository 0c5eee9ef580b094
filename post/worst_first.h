// SPDX-License-Identifier: GPL-3.0-or-later
// Which of the rated places is worst, and which cracks first.
#pragma once
#include <string>
#include <vector>

#include "post/rating.h"

namespace felloe {

/// Worst first, and numbered from 1. Places that fail come first, that of the shortest life over
/// required cycles at the top: it cracks first. Then those that pass, by utilisation, not by life:
/// below the knee of a curve lives are infinite, and above it they fall at different slopes, so
/// that a place with ten times its cycles may be further from failure than one of endless life.
/// Places without a curve come last, by stress.
void sort_and_number(std::vector<HotSpot> &);

/// The first of the test in the order of sort_and_number(). Null: none.
const HotSpot *worst_of(const std::vector<HotSpot> &sorted, const std::string &test);

/// The place of the shortest design life under the test; of equal ones the first. Null: none.
const HotSpot *shortest_lived(const std::vector<HotSpot> &, const std::string &test);

}  // namespace felloe
