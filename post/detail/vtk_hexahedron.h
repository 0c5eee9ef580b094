// SPDX-License-Identifier: GPL-3.0-or-later
// The node order of VTK's triquadratic hexahedron in terms of ours.
#pragma once
#include <array>

namespace felloe::detail {

/// vtk_hexahedron_nodes[v]: our lexicographic number i + 3 j + 9 k of VTK's node v: 8 corners,
/// 4 + 4 + 4 edges (below, above, upright), faces a-, a+, b-, b+, c-, c+, centre.
/// Source: VTK 9.1 class documentation of vtkTriQuadraticHexahedron.
/// Test: VtuFile.CellsHaveTheVolumeOfTheMesh.
constexpr std::array<int, 27> vtk_hexahedron_nodes = {0,  2,  8,  6,  18, 20, 26, 24, 1,
                                                      5,  7,  3,  19, 23, 25, 21, 9,  11,
                                                      17, 15, 12, 14, 10, 16, 4,  22, 13};

}  // namespace felloe::detail
