// SPDX-License-Identifier: GPL-3.0-or-later
// The files of a run for general VTK viewers.
#pragma once
#include <string>

#include "cli/analysis.h"

namespace felloe {

/// Writes into the folder, <test> being the name of a rig test (or of a load of a plain disc):
///
///   wheel.pvd           the volume: one .vtu a rig test (ratings) and a load case (displacement,
///                       stress), as steps of a collection; pieces (.pvtu) when several processes
///                       run, each process writing its own
///   surface_<test>.vtm  ratings on the surface in the blocks disc, rim, weld and hot spots
///   turn_<test>.pvd     one turn of the load on the surface; time is its angle in degrees
///   hot_spots.vtp       all rated places as points with labels
///
/// Several processes: all call it, the first one with the Analysis that holds the fields.
/// Error (naming `shown` in place of the folder) when a file can't be written.
void write_fields(const Analysis &, const std::string &folder, const std::string &shown);

/// A name as part of a file name: letters, digits, dots and dashes stay, the rest becomes "_".
std::string file_stem(const std::string &name);

}  // namespace felloe
