// SPDX-License-Identifier: GPL-3.0-or-later
// What the view of the report shows of a run.
#pragma once
#include <vector>

#include "cli/analysis.h"
#include "post/surface_view.h"

namespace felloe {

/// One a rig test (or load case of a plain disc): stress amplitude, mean stress and life at the
/// nodes, and the hot spots with the figures of results.json. Points into the analysis.
/// @param amplitude_ends  upper ends of the pictures' scales of stress, by test; 0 or missing: by
///   scale_end()
std::vector<SurfaceLoad> surface_loads(const Analysis &,
                                       const std::vector<double> &amplitude_ends = {});

}  // namespace felloe
