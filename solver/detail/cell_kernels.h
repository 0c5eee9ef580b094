// SPDX-License-Identifier: GPL-3.0-or-later
// The product of the stiffness of quadratic hexahedra with a vector, several cells at a time, in
// the widest instruction set of the processor.
#pragma once

namespace felloe::detail {

/// Cells side by side in one vector register of 64 bytes.
template <class T>
constexpr int n_lanes = 64 / static_cast<int>(sizeof(T));

constexpr int n_cell_unknowns = 81;  ///< 27 nodes, three components
constexpr int n_metric = 27 * 9;     ///< numbers of the metric of one cell

/// Batches of cells as the kernels see them. Within a cell the place 9 i + 27 j + 3 k + component
/// belongs to the node (i, j, k) of the lexicographic 3 x 3 x 3; Gauss points are counted
/// likewise, 3 i + 9 j + k.
template <class T>
struct CellBatches {
  /// [batch][27 Gauss points][3 d + j][lane]: d xi_d / d x_j times the root of the Jacobian
  /// determinant and of the quadrature weight, over 2 sqrt(3/5): what derivatives between Gauss
  /// points lack.
  const T *metric;
  const T *lame;  ///< [batch][lambda, mu][lane]
  /// Offsets into x and y of the first component: [batch start + 9 or 27 places][lane]; a batch of
  /// 9 places has the three nodes of each column (i, j) side by side in memory, one of 27 not.
  const int *from, *to;
  const long *start;  ///< of each batch in from and to, in units of places; one more at the end
};

template <class T>
struct CellKernels {
  /// y += K x over the batches first ... last - 1.
  void (*add_product)(const CellBatches<T> &, long first, long last, const T *x, T *y);
  /// f = K u in the places of one batch, u and f [81][lane].
  void (*cell_product)(const T *metric, const T *lame, const T *u, T *f);
};

/// The kernels for this processor.
template <class T>
const CellKernels<T> &cell_kernels();

template <>
const CellKernels<double> &cell_kernels<double>();
template <>
const CellKernels<float> &cell_kernels<float>();

}  // namespace felloe::detail
