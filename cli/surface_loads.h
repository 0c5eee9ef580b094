// SPDX-License-Identifier: GPL-3.0-or-later
// What the view of the report shows of a run.
#pragma once
#include <vector>

#include "cli/analysis.h"
#include "post/surface_view.h"

namespace felloe {

/// One a rig test (or load case of a plain disc): share of the allowed stress, amplitude, mean
/// stress and life at the nodes, and the hot spots with the figures of results.json. Points into
/// the analysis.
std::vector<SurfaceLoad> surface_loads(const Analysis &);

}  // namespace felloe
