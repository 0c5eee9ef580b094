// SPDX-License-Identifier: GPL-3.0-or-later
// A drawing of rig lives with their S-N line.
#pragma once
#include <string>
#include <vector>

#include "post/lives_fit.h"

namespace felloe {

/// SVG, both axes logarithmic: failures as dots, run-outs as rings with an arrow, the median line,
/// the line of the asked survival, and the band in which the median lies with the fit's confidence.
/// load_text: what the load is, with unit.
std::string lives_plot(const LivesFit &, const std::vector<RigLife> &, double survival,
                       const std::string &load_text, const std::string &title);

}  // namespace felloe
