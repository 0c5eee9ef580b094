// SPDX-License-Identifier: GPL-3.0-or-later
// The stiffness of each column of nodes by itself, inverted: what smooths errors in thin bodies,
// whose nodes hang together through the thickness far more stiffly than along the sheet.
#pragma once
#include <vector>

#include "solver/detail/admissible.h"
#include "solver/detail/cell_operator.h"

namespace felloe::detail {

/// Lower triangles in single precision, sixteen columns of equal length side by side: a smoothing
/// step is bound by the memory that it reads.
class ColumnBlocks {
 public:
  /// Components that are held or on the adapter stay out. All processes together.
  ColumnBlocks(const CellOperator<double> &, const CellColumns &, const Admissible &);

  /// d = old_weight d + new_weight B^-1 (r -= y), x += the old d; x and y may be null. The columns
  /// that a share owns.
  void step(int share, const float *y, float *r, float *d, float *x, float old_weight,
            float new_weight) const;

  /// Largest diagonal entry of the stiffness at an owned place, before supports.
  double stiffness(int place) const { return diagonal_[place]; }

 private:
  static constexpr int lanes = 16;
  struct Group {
    int first = 0, n_columns = 0;  ///< at most as many as there are lanes
    int n = 0;                     ///< components of each
    long component = 0, at = 0;    ///< first of the vectors, first of the numbers
  };
  void add_cells(const CellOperator<double> &, const CellColumns &);
  void add_ghosts(const CellColumns &, const NodeExchange &);
  void invert_group(const Group &, const CellColumns &,
                    const std::vector<std::vector<Direction>> &out);
  float &entry(const Group &g, int column, int i, int j) {
    return number_[g.at + (i * (i + 1L) / 2 + j) * lanes + column - g.first];
  }

  std::vector<Group> group_;
  std::vector<int> first_group_;  ///< of each share; one more at the end, ghosts behind
  std::vector<int> group_of_;     ///< of each column, during the set-up
  AlignedVector<float> number_;   ///< [group][row][column <= row][lane]
  std::vector<float> diagonal_;   ///< largest entry of each place's 3 x 3 block
};

}  // namespace felloe::detail
