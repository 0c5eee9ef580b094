// SPDX-License-Identifier: GPL-3.0-or-later
// Sum factorisation on quadratic hexahedra; compiled once for each instruction set by the files
// cell_kernels_*.cc, therefore without a single header of the standard library.
//
// f = sum over the Gauss points of (grad v)^T : (lambda tr(eps) I + 2 mu eps), the gradients taken
// one direction at a time: interpolation to the Gauss points, then differentiation between them
// (Orszag, J. Comput. Phys. 37, 1980; Kronbichler and Kormann, Computers and Fluids 63, 2012).
#pragma once
#include "solver/detail/cell_kernels.h"

namespace felloe::detail {
namespace {

template <class T>
struct Wide {
  typedef T Full __attribute__((vector_size(64)));
  typedef T Eight __attribute__((vector_size(8 * sizeof(T))));
  typedef T Loose __attribute__((vector_size(8 * sizeof(T)), aligned(sizeof(T)), may_alias));
};

template <class T>
using Lane = typename Wide<T>::Full;

// --- lines of three values -----------------------------------------------------------------------

// Values at the nodes -1, 0, 1 to those at the Gauss points -s, 0, s, s^2 = 3/5.
constexpr double even = 0.3, centre = 0.4, odd = 0.3872983346207417;  // s / 2

template <class V>
inline __attribute__((always_inline)) void to_points(V *u, int stride) {
  const V sum = u[0] + u[2 * stride], difference = u[0] - u[2 * stride];
  const V middle = decltype(sum[0] + 0)(even) * sum + decltype(sum[0] + 0)(centre) * u[stride];
  u[0] = middle + decltype(sum[0] + 0)(odd) * difference;
  u[2 * stride] = middle - decltype(sum[0] + 0)(odd) * difference;
}

template <class V>
inline __attribute__((always_inline)) void from_points(V *f, int stride) {
  const V sum = f[0] + f[2 * stride], difference = f[0] - f[2 * stride];
  f[stride] += decltype(sum[0] + 0)(centre) * sum;
  const V half = decltype(sum[0] + 0)(even) * sum;
  f[0] = half + decltype(sum[0] + 0)(odd) * difference;
  f[2 * stride] = half - decltype(sum[0] + 0)(odd) * difference;
}

/// 2 s d/dxi of the parabola through the values at the Gauss points.
template <class V>
inline __attribute__((always_inline)) void differentiate(const V *u, V *g, int stride) {
  const V slope = u[2 * stride] - u[0];
  const V bend = u[0] + u[2 * stride] - (u[stride] + u[stride]);
  const V twice = bend + bend;
  g[0] = slope - twice;
  g[stride] = slope;
  g[2 * stride] = slope + twice;
}

/// The transpose; adds to f.
template <class V>
inline __attribute__((always_inline)) void differentiate_back(const V *g, V *f, int stride) {
  const V slope = g[0] + g[stride] + g[2 * stride];
  const V difference = g[2 * stride] - g[0];
  const V bend = difference + difference;
  f[0] += bend - slope;
  f[stride] -= bend + bend;
  f[2 * stride] += bend + slope;
}

/// Calls line(place of its first value) for the 27 lines along a direction: stride 3, 9 or 27.
template <int stride, class F>
inline __attribute__((always_inline)) void for_lines(F &&line) {
  for (int outer = 0; outer < 81; outer += 3 * stride)
    for (int inner = 0; inner < stride; ++inner) line(outer + inner);
}

// --- one batch -----------------------------------------------------------------------------------

/// f = K u; u is used up.
template <class T>
inline __attribute__((always_inline)) void batch_product(const T *metric, const T *lame, Lane<T> *u,
                                                         Lane<T> *f) {
  using V = Lane<T>;
  constexpr int n = n_lanes<T>;
  const V lambda = *reinterpret_cast<const V *>(lame), mu = *reinterpret_cast<const V *>(lame + n);
  for_lines<3>([&](int p) { to_points(u + p, 3); });
  for_lines<9>([&](int p) { to_points(u + p, 9); });
  for_lines<27>([&](int p) { to_points(u + p, 27); });
  V g[3][81];
  for_lines<9>([&](int p) { differentiate(u + p, g[0] + p, 9); });
  for_lines<27>([&](int p) { differentiate(u + p, g[1] + p, 27); });
  for_lines<3>([&](int p) { differentiate(u + p, g[2] + p, 3); });

  for (int q = 0; q < 27; ++q) {
    V m[9];
    for (int i = 0; i < 9; ++i) m[i] = *reinterpret_cast<const V *>(metric + (9 * q + i) * n);
    V d[3][3];  // d[c][j] = d u_c / d x_j
    for (int c = 0; c < 3; ++c)
      for (int j = 0; j < 3; ++j)
        d[c][j] = g[0][3 * q + c] * m[j] + g[1][3 * q + c] * m[3 + j] + g[2][3 * q + c] * m[6 + j];
    const V volumetric = lambda * (d[0][0] + d[1][1] + d[2][2]);
    V s[3][3];
    for (int c = 0; c < 3; ++c) s[c][c] = volumetric + mu * (d[c][c] + d[c][c]);
    s[0][1] = s[1][0] = mu * (d[0][1] + d[1][0]);
    s[1][2] = s[2][1] = mu * (d[1][2] + d[2][1]);
    s[2][0] = s[0][2] = mu * (d[2][0] + d[0][2]);
    for (int c = 0; c < 3; ++c)
      for (int e = 0; e < 3; ++e)
        g[e][3 * q + c] = s[c][0] * m[3 * e] + s[c][1] * m[3 * e + 1] + s[c][2] * m[3 * e + 2];
  }

  for (int p = 0; p < 81; ++p) f[p] = V{};
  for_lines<9>([&](int p) { differentiate_back(g[0] + p, f + p, 9); });
  for_lines<27>([&](int p) { differentiate_back(g[1] + p, f + p, 27); });
  for_lines<3>([&](int p) { differentiate_back(g[2] + p, f + p, 3); });
  for_lines<3>([&](int p) { from_points(f + p, 3); });
  for_lines<9>([&](int p) { from_points(f + p, 9); });
  for_lines<27>([&](int p) { from_points(f + p, 27); });
}

// --- between memory and lanes --------------------------------------------------------------------

/// Rows become columns.
template <class E>
inline __attribute__((always_inline)) void transpose(E *r) {
  E t[8], s[8];
  for (int i = 0; i < 8; i += 2) {
    t[i] = __builtin_shufflevector(r[i], r[i + 1], 0, 8, 2, 10, 4, 12, 6, 14);
    t[i + 1] = __builtin_shufflevector(r[i], r[i + 1], 1, 9, 3, 11, 5, 13, 7, 15);
  }
  for (int h = 0; h < 8; h += 4)
    for (int i = h; i < h + 2; ++i) {
      s[i] = __builtin_shufflevector(t[i], t[i + 2], 0, 1, 8, 9, 4, 5, 12, 13);
      s[i + 2] = __builtin_shufflevector(t[i], t[i + 2], 2, 3, 10, 11, 6, 7, 14, 15);
    }
  for (int i = 0; i < 4; ++i) {
    r[i] = __builtin_shufflevector(s[i], s[i + 4], 0, 1, 2, 3, 8, 9, 10, 11);
    r[i + 4] = __builtin_shufflevector(s[i], s[i + 4], 4, 5, 6, 7, 12, 13, 14, 15);
  }
}

/// Nine numbers of each lane at x + offset, into nine places.
template <class T>
inline __attribute__((always_inline)) void load_column(const T *x, const int *offset, Lane<T> *u) {
  using E = typename Wide<T>::Eight;
  using Loose = typename Wide<T>::Loose;
  constexpr int n = n_lanes<T>;
  for (int half = 0; half < n; half += 8) {
    E rows[8];
    for (int l = 0; l < 8; ++l) rows[l] = *reinterpret_cast<const Loose *>(x + offset[half + l]);
    transpose(rows);
    for (int k = 0; k < 8; ++k) reinterpret_cast<E *>(u + k)[half / 8] = rows[k];
    E last;
    for (int l = 0; l < 8; ++l) last[l] = x[offset[half + l] + 8];
    reinterpret_cast<E *>(u + 8)[half / 8] = last;
  }
}

template <class T>
inline __attribute__((always_inline)) void add_column(const Lane<T> *f, const int *offset, T *y) {
  using E = typename Wide<T>::Eight;
  using Loose = typename Wide<T>::Loose;
  constexpr int n = n_lanes<T>;
  for (int half = 0; half < n; half += 8) {
    E rows[8];
    for (int k = 0; k < 8; ++k) rows[k] = reinterpret_cast<const E *>(f + k)[half / 8];
    transpose(rows);
    const E last = reinterpret_cast<const E *>(f + 8)[half / 8];
    // Lane after lane: two cells of a batch may share the column.
    for (int l = 0; l < 8; ++l) {
      T *to = y + offset[half + l];
      *reinterpret_cast<Loose *>(to) += rows[l];
      to[8] += last[l];
    }
  }
}

template <class T>
void add_product(const CellBatches<T> &cells, long first, long last, const T *x, T *y) {
  using V = Lane<T>;
  constexpr int n = n_lanes<T>;
  for (long b = first; b < last; ++b) {
    V u[81], f[81];
    const bool columns = cells.start[b + 1] - cells.start[b] == 9;
    const int *from = cells.from + cells.start[b] * n, *to = cells.to + cells.start[b] * n;
    if (columns) {
      for (int s = 0; s < 9; ++s) load_column<T>(x, from + s * n, u + 9 * s);
    } else {
      for (int a = 0; a < 27; ++a)
        for (int l = 0; l < n; ++l)
          for (int c = 0; c < 3; ++c) u[3 * a + c][l] = x[from[a * n + l] + c];
    }
    batch_product<T>(cells.metric + b * n_metric * n, cells.lame + b * 2 * n, u, f);
    if (columns) {
      for (int s = 0; s < 9; ++s) add_column<T>(f + 9 * s, to + s * n, y);
    } else {
      for (int a = 0; a < 27; ++a)
        for (int l = 0; l < n; ++l)
          for (int c = 0; c < 3; ++c) y[to[a * n + l] + c] += f[3 * a + c][l];
    }
  }
}

template <class T>
void cell_product(const T *metric, const T *lame, const T *u, T *f) {
  using V = Lane<T>;
  V used[81];
  for (int p = 0; p < 81; ++p) used[p] = reinterpret_cast<const V *>(u)[p];
  batch_product<T>(metric, lame, used, reinterpret_cast<V *>(f));
}

}  // namespace
}  // namespace felloe::detail

#define FELLOE_CELL_KERNELS(name)                                                     \
  namespace felloe::detail {                                                          \
  extern const CellKernels<double> name##_double;                                     \
  extern const CellKernels<float> name##_float;                                       \
  const CellKernels<double> name##_double{add_product<double>, cell_product<double>}; \
  const CellKernels<float> name##_float{add_product<float>, cell_product<float>};     \
  }
