// SPDX-License-Identifier: GPL-3.0-or-later
// The limit line of a Haigh diagram for any criterion.
#pragma once
#include <array>
#include <vector>

#include "post/criteria.h"

namespace felloe {

/// (mean, amplitude) [MPa] of a bar in tension and compression that is as damaging as the fully
/// reversed amplitude `allowed`: found on rays of constant stress ratio, from lowest_mean to
/// largest_mean, ascending. Where the criterion takes no harm from a ray within the range, there is
/// no point.
std::vector<std::array<double, 2>> haigh_limit(const FatigueCriterion &, const FatigueConstants &,
                                               double allowed, double lowest_mean,
                                               double largest_mean);

}  // namespace felloe
