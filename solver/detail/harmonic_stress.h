// SPDX-License-Identifier: GPL-3.0-or-later
// Stress amplitudes at the section nodes.
#pragma once
#include <map>
#include <vector>

#include "solver/detail/harmonic_element.h"
#include "solver/harmonic_model.h"

namespace felloe::detail {

/// Stress at the 9 nodes of each cell, averaged over the cells of the node's part: evaluated at the
/// nodes, as the 3D model does (solver/detail/stress_recovery.cc says why); in cells that touch the
/// axis extrapolated bilinearly from the 2 x 2 Gauss points.
class HarmonicStresses {
 public:
  HarmonicStresses(const SectionMesh &, const std::map<Part, Material> &);
  std::vector<HarmonicStress> at_nodes(int n,
                                       const std::vector<HarmonicVector> &displacement) const;

 private:
  struct Cell {
    std::array<int, 9> nodes{};
    std::array<bool, 9> counts{};      ///< the cell belongs to the node's part
    std::vector<SectionPoint> points;  ///< the nodes, or 2 x 2
    double lambda = 0, mu = 0;         ///< [MPa]
  };
  std::vector<Cell> cells_;
  std::vector<double> share_;  ///< of one cell in the mean at each node
};

}  // namespace felloe::detail
