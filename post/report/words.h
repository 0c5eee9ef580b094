// SPDX-License-Identifier: GPL-3.0-or-later
// Numbers and verdicts as a report writes them. All results are plain text but for *_markup.
#pragma once
#include <string>

#include "post/results.h"

namespace felloe {

/// Three to four significant figures, thousands apart by narrow spaces, a real minus sign:
/// "48 600", "−12.3", "0.0125". Not a number: "–".
std::string figure_text(double value, int digits = 4);
/// With a fixed number of decimals.
std::string fixed_text(double value, int decimals);

/// "45 000" below a million, "1.23 × 10⁶" above, "infinite".
std::string cycles_words(double cycles);

/// Design life of a hot spot when its stress is `share` times what was computed.
double life_at_share(const HotSpot &, double survival, double share);

/// "38 000 to 53 000" by the error bar of the stress; "not estimated" without one.
std::string life_range(const HotSpot &, double survival);

/// That the verdict turns within the error bar.
bool within_error(const HotSpot &, double survival);

/// "Passed", "Failed", "Not rated".
std::string verdict_text(Verdict);
/// Class of the house style: "pass", "fail", "not-rated".
std::string verdict_class(Verdict);
/// The verdict with its sign in its colour.
std::string verdict_markup(Verdict);

/// Position of the test in the results: its colour and mark everywhere.
int test_index(const Results &, const std::string &test);

/// The test's mark and name.
std::string test_markup(const Results &, const std::string &test);

/// Foreign text between marks that keep its writing direction to itself.
std::string name_markup(const std::string &);

}  // namespace felloe
