// SPDX-License-Identifier: GPL-3.0-or-later
// The rows of the table of criteria, each built beside its formula.
#pragma once
#include "post/criteria.h"

namespace felloe {

FatigueCriterion normal_stress_plane_row();
FatigueCriterion limited_findley_row();
FatigueCriterion findley_row();
FatigueCriterion matake_row();
FatigueCriterion fatemi_socie_row();
FatigueCriterion crossland_row();
FatigueCriterion dang_van_row();
FatigueCriterion papadopoulos_row();
FatigueCriterion largest_principal_row();
FatigueCriterion signed_von_mises_row();

/// t / f. Error when it lies outside 0.5 ... 1, where the criteria cannot be fitted.
double limit_ratio(const FatigueConstants &);

}  // namespace felloe
