// SPDX-License-Identifier: GPL-3.0-or-later
// What every point of the demo wheel's surface feels in the cornering test.
#pragma once
#include <string>
#include <vector>

#include "post/criteria.h"

namespace felloe::bench {

struct DemoSurface {
  double density = 0;                      ///< of the mesh
  std::string test;                        ///< first rotating-bending test of the case
  FatigueConstants constants;              ///< of the disc; the rim's points are rated by them too
  std::vector<HarmonicHistory> histories;  ///< of all nodes on the skin
};

/// Meshes the case with the smallest density among 1, 1.4, 2, 2.8 whose skin has at least so many
/// nodes, solves press fit, clamp and moments as a run does. A minute or two.
DemoSurface demo_surface(const std::string &case_file, std::size_t least_points);

}  // namespace felloe::bench
