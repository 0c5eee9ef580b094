// SPDX-License-Identifier: GPL-3.0-or-later
// Stress amplitudes at the section nodes.
#pragma once
#include <map>
#include <vector>

#include "solver/detail/harmonic_element.h"
#include "solver/harmonic_model.h"

namespace felloe::detail {

/// Stress at the 2 x 2 Gauss points, where it is most accurate, extrapolated bilinearly to the 9
/// nodes of each cell and averaged over the cells of the node's part.
class HarmonicStresses {
 public:
  HarmonicStresses(const SectionMesh &, const std::map<Part, Material> &);
  std::vector<HarmonicStress> at_nodes(int n,
                                       const std::vector<HarmonicVector> &displacement) const;

 private:
  struct Cell {
    std::array<int, 9> nodes{};
    std::array<bool, 9> counts{};  ///< the cell belongs to the node's part
    std::array<SectionPoint, 4> points;
    double lambda = 0, mu = 0;  ///< [MPa]
  };
  std::vector<Cell> cells_;
  std::vector<double> share_;  ///< of one cell in the mean at each node
};

}  // namespace felloe::detail
