// SPDX-License-Identifier: GPL-3.0-or-later
// Where loads act on the wheel and how it is held, for pictures.
#pragma once
#include <string>

#include "cli/analysis.h"
#include "cli/case.h"
#include "post/pictures.h"

namespace felloe {

/// Of a rig test of a wheel.
LoadSketch load_sketch(const Analysis &, const Case &, const TestVerdict &);
/// Of a load of a plain disc, by its name.
LoadSketch load_sketch(const Analysis &, const Case &, const std::string &plate_load);

}  // namespace felloe
