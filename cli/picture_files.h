// SPDX-License-Identifier: GPL-3.0-or-later
// The pictures of a run.
#pragma once
#include <string>

#include "cli/analysis.h"
#include "cli/case.h"
#include "post/jobs.h"

namespace felloe {

/// What may not be judged, in the words of the legends.
std::string why_grey(Held);

/// Draws pictures/<test>_<view>.png of every rig test (or load of a plain disc), views as in
/// post/pictures.h, all with one colour scale: share of the allowed stress, so that the same
/// colour means the same on every wheel; von Mises stress of a plain disc. Lists them
/// with their alt texts in the results, with the scale. `besides` is done by the
/// same threads. Returns a remark for the progress line.
std::string draw_pictures(Analysis &, const Case &, const std::string &folder, const Jobs &besides);

}  // namespace felloe
