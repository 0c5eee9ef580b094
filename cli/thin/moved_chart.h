// SPDX-License-Identifier: GPL-3.0-or-later
// The chart of one wheel laid on another one of the same make: same quads, nodes elsewhere.
#pragma once
#include "mesher/chart_mesh.h"
#include "mesher/layout.h"

namespace felloe {

/// Moves circles, rings and nodes along the mid-line so that borders of bends, hub face, holes,
/// flange and weld lie where the other layout has them; linear in between. theta stays. So the mesh
/// follows thickness, bend radii and hole diameters smoothly and keeps its topology.
/// Throws Error when the borders change their order on the way.
ChartMesh moved_chart(const ChartMesh &, const WheelLayout &from, const WheelLayout &to);

}  // namespace felloe
