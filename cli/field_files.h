// SPDX-License-Identifier: GPL-3.0-or-later
// The field files of a run.
#pragma once
#include <string>

#include "cli/analysis.h"

namespace felloe {

/// "radial load at 0.000 deg, hub held" -> "radial_load_at_0.000_deg_hub_held"
std::string file_stem(const std::string &name);

/// One file a rig test, one a load case, and the collection over all. All processes of a run
/// together: the fields of the first one are written, each process a piece of the mesh. An Error
/// names `shown` in place of the folder.
void write_fields(const Analysis &, const std::string &folder, const std::string &shown);

}  // namespace felloe
