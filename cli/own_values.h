// SPDX-License-Identifier: GPL-3.0-or-later
// Where a case's numbers come from when they are not those of a table row.
#pragma once
#include "cli/case.h"

namespace felloe {

/// Marks materials and rig tests whose values differ from their row, or that have no row, as the
/// user's own: no report may print a row's source beside a number that the row does not hold.
/// Names what has no name.
void note_own_values(Case &);

}  // namespace felloe
