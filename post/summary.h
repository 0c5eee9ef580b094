// SPDX-License-Identifier: GPL-3.0-or-later
// What a run found, on one screen of a terminal.
#pragma once
#include <string>
#include <vector>

#include "post/results.h"

namespace felloe {

constexpr int summary_columns = 100;  ///< no line of the summary is wider

/// Plain text (ASCII except what the user's own names hold): verdict, mass, stiffness, rig tests,
/// the worst hot spots, assumptions of low confidence, cautions.
/// colour: with terminal escape sequences for verdicts and headings.
std::string summary(const Results &, bool colour);

/// Cautions as a numbered list under their heading, wrapped to summary_columns; "" when none.
std::string caution_text(const std::vector<std::string> &cautions, bool colour);

/// Cycles in few characters: "1.23e6", "850", ">1e10", "infinite"; "-" for not-a-number.
std::string cycles_text(double cycles);

}  // namespace felloe
