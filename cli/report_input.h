// SPDX-License-Identifier: GPL-3.0-or-later
// What report.html says of a case, put together for post/report.
#pragma once
#include <string>

#include "cli/analysis.h"
#include "post/report/report.h"

namespace felloe {

/// Everything of the report but pictures and the interactive view. case_text: of the case.toml that
/// is written beside it; command: that gave these results.
ReportInput report_input(const Case &, const Analysis &, const std::string &case_text,
                         const std::string &command);

/// The PNG files of a folder, of every rig test the close-up first; none when there is no such
/// folder. Pictures beyond 3.6 MB in all are left out: the report says which.
void add_pictures(ReportInput &, const std::string &folder);

/// The wheel and its loads in words.
std::vector<ReportFact> wheel_facts(const Case &, const WheelLayout &);
std::vector<ReportFact> load_facts(const Case &);

/// Source and confidence of every factor that the figures of this case rest on.
std::vector<Provenance> factors_of(const Case &);

}  // namespace felloe
