// SPDX-License-Identifier: GPL-3.0-or-later
// The stiffness of each column of nodes by itself, inverted: what smooths errors in thin bodies,
// whose nodes hang together through the thickness far more stiffly than along the sheet.
#pragma once
#include <vector>

#include "solver/detail/admissible.h"
#include "solver/detail/cell_operator.h"

namespace felloe::detail {

class ColumnBlocks {
 public:
  /// Components that are held or on the adapter stay out.
  ColumnBlocks(const CellOperator<double> &, const CellColumns &, const Admissible &);

  /// d = old_weight d + new_weight B^-1 (r -= y), x += the old d; x and y may be null. Columns
  /// first ... last - 1.
  void step(long first, long last, const float *y, float *r, float *d, float *x, float old_weight,
            float new_weight) const;

  /// Largest diagonal entry of the stiffness at a place, before supports.
  double stiffness(int place) const { return diagonal_[place]; }

 private:
  std::vector<int> start_;       ///< of CellColumns
  std::vector<long> at_;         ///< first number of each block
  std::vector<float> inverse_;   ///< symmetric blocks, one after the other
  std::vector<float> diagonal_;  ///< largest entry of each place's 3 x 3 block
};

}  // namespace felloe::detail
