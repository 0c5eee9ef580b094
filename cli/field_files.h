// SPDX-License-Identifier: GPL-3.0-or-later
// The files of a run for general VTK viewers.
#pragma once
#include <string>

#include "cli/analysis.h"
#include "post/jobs.h"

namespace felloe {

/// Writing the files of the surface, and of one process those of the volume as well, into the
/// folder; <test> being the name of a rig test (or of a load of a plain disc):
///
///   wheel.pvd           the volume: one .vtu a rig test (ratings) and a load case (displacement,
///                       stress), as steps of a collection
///   surface_<test>.vtm  ratings on the surface in the blocks disc, rim, weld and hot spots
///   turn_<test>.pvd     one turn of the load on the surface; time is its angle in degrees
///   hot_spots.vtp       all rated places as points with labels
///
/// The Analysis must outlive the jobs. They throw an Error when a file can't be written.
Jobs field_jobs(const Analysis &, const std::string &folder);

/// The volume of several processes, each writing its own pieces (.pvtu): all call it, the first one
/// with the Analysis that holds the fields. Error (naming `shown` in place of the folder) when a
/// file can't be written.
void write_pieces(const Analysis &, const std::string &folder, const std::string &shown);

/// A name as part of a file name: letters, digits, dots and dashes stay, the rest becomes "_".
std::string file_stem(const std::string &name);

}  // namespace felloe
