// SPDX-License-Identifier: GPL-3.0-or-later
// Surfaces, turns and hot spots of a run for general VTK viewers.
#pragma once
#include <string>

#include "cli/analysis.h"
#include "post/field_output.h"
#include "post/jobs.h"

namespace felloe {

/// Writing surface_<test>.vtm with surface/<test>_<part>.vtp and <test>_hot_spots.vtp,
/// turn_<test>.pvd with turn/<test>_<angle>.vtp, and hot_spots.vtp; see field_jobs().
Jobs surface_jobs(const Analysis &, const std::string &folder);

/// Ratings at all nodes under one rig test: stress amplitude, mean stress, life, stress error, and
/// 1 where the stress may be judged. Of a plain disc under a load: von Mises stress.
std::vector<PointField> rating_fields(const Analysis &, const TestFields &);

}  // namespace felloe
