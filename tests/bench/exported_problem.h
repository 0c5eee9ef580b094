// SPDX-License-Identifier: GPL-3.0-or-later
// The same mesh, supports and loads for another library.
#pragma once
#include <string>

#include "tests/bench/demo_loads.h"

namespace felloe::bench {

/// Writes into a folder, numbers in the machine's own byte order:
///   sizes.txt          nodes, cells, held nodes, loads
///   nodes.f64          x y z of each node [mm]
///   cells.i64          27 nodes a cell, lexicographic
///   lame.f64           lambda mu of each cell [MPa]
///   held.i64           nodes with all components zero
///   forces.f64         [load][node][xyz] consistent nodal forces [N]
///   displacements.f64  [load][node][xyz] our solution [mm]
void export_problem(const MeshedCase &, const std::string &folder);

}  // namespace felloe::bench
