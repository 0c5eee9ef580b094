// SPDX-License-Identifier: GPL-3.0-or-later
// Quality of one part of a mesh.
#pragma once
#include "mesher/mesh.h"

namespace felloe {

/// As mesh_quality(), over the cells of one part only; no cells: volume 0.
MeshQuality part_quality(const Mesh &, Part, int refinements = 0);

}  // namespace felloe
