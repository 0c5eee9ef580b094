// SPDX-License-Identifier: GPL-3.0-or-later
// Stress amplitudes at the section nodes.
#pragma once
#include <map>
#include <vector>

#include "solver/harmonic_model.h"

namespace felloe::detail {

/// Stress at the 2 x 2 Gauss points, where it is most accurate, extrapolated bilinearly to the 9
/// nodes of each cell and averaged over the cells of the node's part.
std::vector<HarmonicStress> nodal_stress(const SectionMesh &, const std::map<Part, Material> &,
                                         int n, const std::vector<HarmonicVector> &displacement);

}  // namespace felloe::detail
