// SPDX-License-Identifier: GPL-3.0-or-later
// Cuts every cell of a chart mesh into four, so that meshes of doubled density are nested.
#pragma once
#include <vector>

#include "mesher/chart_mesh.h"

namespace felloe {

/// The same disc with every quad cut into four at the middles of its parameters: edges half as
/// long, same shape, all former nodes kept. Numbered like any chart mesh (circles first).
ChartMesh halved(const WheelLayout &, const ChartMesh &);

/// s of the circle midway between two circles in the chart [mm].
double circle_between(const Sheet &, double s0, double s1);

}  // namespace felloe
