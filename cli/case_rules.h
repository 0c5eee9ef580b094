// SPDX-License-Identifier: GPL-3.0-or-later
// Rules that join several keys of a case file.
#pragma once
#include "cli/case.h"
#include "cli/findings.h"

namespace felloe {

/// Adds a finding for every rule that the case breaks. Keys that already have a finding of their
/// own are not judged twice: a rule looks only at values that were read.
void check_rules(const Case &, const GivenKeys &, Findings &);

}  // namespace felloe
