// SPDX-License-Identifier: GPL-3.0-or-later
// Takes the zigzag out of nodal stresses: what quadratic cells show too low at their corners and
// too high at their middles, or the other way round.
#pragma once
#include <array>
#include <vector>

#include "mesher/layout.h"
#include "mesher/mesh.h"
#include "solver/stress.h"

namespace felloe {

/// Along a line of cells the stress of quadratic displacements swings round the true one: the error
/// has the shape of the second Legendre polynomial in every cell, so corners and middles are wrong
/// in opposite directions (the Gauss points between them are nearly right). On curved sheets with
/// one cell through the thickness that is the largest part of the error. The curvature of the
/// stress across three cells, taken from their middles alone, is free of it; what a cell bends more
/// than that is split evenly between its middle and its corners. On even cells this is the filter
/// (-1, 4, 10, 4, -1) / 16: it removes the swing and keeps cubic courses as they are.
/// Source: own derivation; superconvergent points: J. Barlow, Int. J. Numer. Meth. Eng. 10 (1976)
/// 243 (from memory).
///
/// Works along the sheets of disc and rim. Left as they are: nodes of the weld, of its toes'
/// read-out stretches, round the border of the bonded hub face, and across free edges, where there
/// are no three cells in a row.
class StressSmoothing {
 public:
  StressSmoothing(const WheelLayout &, const Mesh &);
  void apply(std::vector<Stress> &) const;
  /// Adds the nodes whose stress apply() reads for those that are wanted.
  void widen(std::vector<bool> &wanted) const;
  int n_lines() const { return static_cast<int>(lines_.size()); }

 private:
  struct Line {
    std::array<int, 5> nodes;         // middle before, corner, middle, corner, middle behind
    std::array<double, 3> curvature;  // weights of the three middles
  };
  std::vector<Line> lines_;
  std::vector<bool> kept_;  // nodes that stay as they are
};

}  // namespace felloe
