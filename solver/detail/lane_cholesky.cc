// SPDX-License-Identifier: GPL-3.0-or-later
// Right-looking supernodal Cholesky; every number is a vector of eight.
#include "solver/detail/lane_cholesky.h"

#include <algorithm>
#include <cmath>

#include "solver/detail/sparse_cholesky.h"

// One function for each instruction set; the loader picks the widest that the processor has.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__)
#define FELLOE_WIDEST \
  __attribute__((target_clones("arch=skylake-avx512", "arch=haswell", "default")))
#else
#define FELLOE_WIDEST
#endif
#define FELLOE_INSIDE inline __attribute__((always_inline))

namespace felloe::detail {
namespace {

/// Cholesky of the panel's own columns, applied to its rows. diagonal: of the matrix before any
/// elimination. Returns the smallest pivot over its diagonal entry.
template <class T>
FELLOE_INSIDE double factor_body(T *p, int columns, int height, const T *diagonal) {
  double worst = 1;
  for (int k = 0; k < columns; ++k) {
    T *own = p + static_cast<long>(k) * height;
    T inverse;
    for (int l = 0; l < n_lanes_of<T>; ++l) {
      const double pivot = lane(own[k], l), ratio = pivot / lane(diagonal[k], l);
      worst = ratio < worst || !(ratio == ratio) ? ratio : worst;
      lane(inverse, l) = 1 / __builtin_sqrt(pivot);
    }
    if (!(worst > 0)) return worst;
    for (int i = k; i < height; ++i) own[i] *= inverse;
    int j = k + 1;
    for (; j + 1 < columns; j += 2) {
      T *a = p + static_cast<long>(j) * height, *b = a + height;
      const T with_a = own[j], with_b = own[j + 1];
      a[j] -= with_a * with_a;
      for (int i = j + 1; i < height; ++i) {
        const T x = own[i];
        a[i] -= x * with_a;
        b[i] -= x * with_b;
      }
    }
    for (; j < columns; ++j) {
      T *a = p + static_cast<long>(j) * height;
      const T with_a = own[j];
      for (int i = j; i < height; ++i) a[i] -= own[i] * with_a;
    }
  }
  return worst;
}

/// Rows j0 ... j1 - 1 of the panel below its own are columns of the target panel: subtracts their
/// products with all rows from j0 on. row: of the target panel, by row of this one.
template <class T>
FELLOE_INSIDE void subtract_body(const T *below, int columns, int height, int n_rows, int j0,
                                 int j1, const int *row, T *target, int target_height) {
  for (int j = j0; j < j1; j += 4)
    for (int i = j; i < n_rows; i += 4) {
      T sum[4][4] = {};
      const int high = n_rows - i < 4 ? n_rows - i : 4, wide = j1 - j < 4 ? j1 - j : 4;
      if (high == 4 && wide == 4) {
        for (int k = 0; k < columns; ++k) {
          const T *c = below + static_cast<long>(k) * height;
          for (int x = 0; x < 4; ++x)
            for (int y = 0; y < 4; ++y) sum[x][y] += c[i + x] * c[j + y];
        }
      } else {
        for (int k = 0; k < columns; ++k) {
          const T *c = below + static_cast<long>(k) * height;
          for (int x = 0; x < high; ++x)
            for (int y = 0; y < wide; ++y) sum[x][y] += c[i + x] * c[j + y];
        }
      }
      for (int y = 0; y < wide; ++y) {
        T *column = target + static_cast<long>(row[j + y]) * target_height;
        for (int x = 0; x < high; ++x)
          if (i + x >= j + y) column[row[i + x]] -= sum[x][y];
      }
    }
}

template <class T>
FELLOE_INSIDE void forward_body(const T *p, int columns, int height, const int *rows, T *own, T *x,
                                int n_sides) {
  for (int k = 0; k < columns; ++k) {
    const T *c = p + static_cast<long>(k) * height;
    const T inverse = 1 / c[k];
    for (int s = 0; s < n_sides; ++s) {
      const T xk = own[k * n_sides + s] * inverse;
      own[k * n_sides + s] = xk;
      for (int i = k + 1; i < columns; ++i) own[i * n_sides + s] -= c[i] * xk;
      for (int i = columns; i < height; ++i) x[rows[i - columns] * n_sides + s] -= c[i] * xk;
    }
  }
}

template <class T>
FELLOE_INSIDE void backward_body(const T *p, int columns, int height, const int *rows, T *own,
                                 const T *x, int n_sides) {
  for (int k = columns - 1; k >= 0; --k) {
    const T *c = p + static_cast<long>(k) * height;
    const T inverse = 1 / c[k];
    for (int s = 0; s < n_sides; ++s) {
      T sum = own[k * n_sides + s];
      for (int i = k + 1; i < columns; ++i) sum -= c[i] * own[i * n_sides + s];
      for (int i = columns; i < height; ++i) sum -= c[i] * x[rows[i - columns] * n_sides + s];
      own[k * n_sides + s] = sum * inverse;
    }
  }
}

FELLOE_WIDEST double factor_panel(Lanes *p, int columns, int height, const Lanes *diagonal) {
  return factor_body(p, columns, height, diagonal);
}
FELLOE_WIDEST void subtract_products(const Lanes *below, int columns, int height, int n_rows,
                                     int j0, int j1, const int *row, Lanes *target,
                                     int target_height) {
  subtract_body(below, columns, height, n_rows, j0, j1, row, target, target_height);
}
FELLOE_WIDEST void forward(const Lanes *p, int columns, int height, const int *rows, Lanes *own,
                           Lanes *x, int n_sides) {
  forward_body(p, columns, height, rows, own, x, n_sides);
}
FELLOE_WIDEST void backward(const Lanes *p, int columns, int height, const int *rows, Lanes *own,
                            const Lanes *x, int n_sides) {
  backward_body(p, columns, height, rows, own, x, n_sides);
}

FELLOE_WIDEST double factor_panel(double *p, int columns, int height, const double *diagonal) {
  return factor_body(p, columns, height, diagonal);
}
FELLOE_WIDEST void subtract_products(const double *below, int columns, int height, int n_rows,
                                     int j0, int j1, const int *row, double *target,
                                     int target_height) {
  subtract_body(below, columns, height, n_rows, j0, j1, row, target, target_height);
}
FELLOE_WIDEST void forward(const double *p, int columns, int height, const int *rows, double *own,
                           double *x, int n_sides) {
  forward_body(p, columns, height, rows, own, x, n_sides);
}
FELLOE_WIDEST void backward(const double *p, int columns, int height, const int *rows, double *own,
                            const double *x, int n_sides) {
  backward_body(p, columns, height, rows, own, x, n_sides);
}

}  // namespace

template <class T>
LaneCholesky<T>::LaneCholesky(LanePlan plan) : plan_(std::move(plan)), values_(plan_.size) {}

template <class T>
void LaneCholesky<T>::factor() {
  LaneArray<T> diagonal(plan_.place.size());
  for (const LanePlan::Panel &p : plan_.panels)
    for (int k = 0; k < p.columns; ++k)
      diagonal[p.first + k] = values_[p.start + static_cast<long>(k) * (p.height() + 1)];
  std::vector<int> row;
  for (const LanePlan::Panel &p : plan_.panels) {
    T *panel = &values_[p.start];
    const double ratio = factor_panel(panel, p.columns, p.height(), &diagonal[p.first]);
    if (!(ratio >= 1e-14)) throw NotPositiveDefinite(std::max(0., ratio));
    const int n_rows = static_cast<int>(p.rows.size());
    row.resize(n_rows);
    for (int j0 = 0, j1; j0 < n_rows; j0 = j1) {
      const LanePlan::Panel &t = plan_.panels[plan_.panel_of[p.rows[j0]]];
      auto at = t.rows.begin();
      j1 = j0;
      for (int i = j0; i < n_rows; ++i) {
        const int position = p.rows[i];
        if (position < t.first + t.columns) {
          row[i] = position - t.first;
          j1 = i + 1;
        } else {
          while (*at < position) ++at;
          row[i] = t.columns + static_cast<int>(at - t.rows.begin());
        }
      }
      subtract_products(panel + p.columns, p.columns, p.height(), n_rows, j0, j1, row.data(),
                        &values_[t.start], t.height());
    }
  }
}

template <class T>
void LaneCholesky<T>::solve(T *x, int n_sides) const {
  for (const LanePlan::Panel &p : plan_.panels)
    forward(values_.data() + p.start, p.columns, p.height(), p.rows.data(),
            x + static_cast<long>(p.first) * n_sides, x, n_sides);
  for (auto p = plan_.panels.rbegin(); p != plan_.panels.rend(); ++p)
    backward(values_.data() + p->start, p->columns, p->height(), p->rows.data(),
             x + static_cast<long>(p->first) * n_sides, x, n_sides);
}

template class LaneCholesky<Lanes>;
template class LaneCholesky<double>;

}  // namespace felloe::detail
