// SPDX-License-Identifier: GPL-3.0-or-later
// Blocks from products with unit vectors, cell by cell.
#include "solver/detail/column_blocks.h"

#include <algorithm>
#include <cstring>

#include "solver/detail/dense.h"
#include "solver/detail/in_shares.h"

namespace felloe::detail {
namespace {

constexpr int lanes = n_lanes<double>;

/// Lexicographic number of the node at the kernels' place 3 a ... 3 a + 2.
int node_at(int a) { return a % 9 / 3 + 3 * (a / 9) + 9 * (a % 3); }

/// Stiffness within each line of three nodes along k: [line][row][column][lane].
using LineBlocks = std::array<std::array<std::array<double, lanes>, 81>, 9>;

void line_blocks(const CellOperator<double> &k, long batch, LineBlocks &blocks) {
  alignas(64) double u[81 * lanes] = {}, f[81 * lanes];
  for (int p = 0; p < 81; ++p) {
    std::fill(u + p * lanes, u + (p + 1) * lanes, 1.0);
    cell_kernels<double>().cell_product(k.metric(batch), k.lame(batch), u, f);
    std::fill(u + p * lanes, u + (p + 1) * lanes, 0.0);
    const int line = p / 9;
    for (int i = 0; i < 9; ++i)
      for (int l = 0; l < lanes; ++l)
        blocks[line][9 * i + p % 9][l] = f[(9 * line + i) * lanes + l];
  }
}

/// B within the plane across the direction, some stiffness of its own along it.
void keep_out(double *b, int n, int first, const Vec3 &e) {
  double own = 0;
  for (int i = 0; i < n; ++i) own = std::max(own, b[i * n + i]);
  std::vector<double> be(n, 0.0);
  for (int i = 0; i < n; ++i)
    for (int j = 0; j < 3; ++j) be[i] += b[i * n + first + j] * e[j];
  double ebe = 0;
  for (int j = 0; j < 3; ++j) ebe += e[j] * be[first + j];
  for (int i = 0; i < n; ++i)
    for (int j = 0; j < 3; ++j) {
      b[i * n + first + j] -= be[i] * e[j];
      b[(first + j) * n + i] -= be[i] * e[j];
    }
  for (int i = 0; i < 3; ++i)
    for (int j = 0; j < 3; ++j) b[(first + i) * n + first + j] += (ebe + own) * e[i] * e[j];
}

}  // namespace

ColumnBlocks::ColumnBlocks(const CellOperator<double> &k, const CellColumns &columns,
                           const Admissible &admissible)
    : start_(columns.start), diagonal_(columns.n_places()) {
  at_.push_back(0);
  for (int c = 0; c < columns.n_columns(); ++c) {
    const long n = 3L * (start_[c + 1] - start_[c]);
    at_.push_back(at_.back() + n * n);
  }
  inverse_.assign(at_.back() + 16, 0.0f);

  const auto scatter = [&](long batch, const LineBlocks &blocks) {
    for (int l = 0; l < lanes; ++l) {
      const int cell = k.cell(batch, l);
      if (cell < 0) continue;
      for (int line = 0; line < 9; ++line)
        for (int a = 0; a < 3; ++a)
          for (int b = 0; b < 3; ++b) {
            const int row = columns.places[cell][node_at(3 * line + a)];
            const int other = columns.places[cell][node_at(3 * line + b)];
            const int column = columns.column[row];
            if (columns.column[other] != column) continue;
            const int n = 3 * (start_[column + 1] - start_[column]);
            float *to = inverse_.data() + at_[column] + 3L * (row - start_[column]) * n +
                        3 * (other - start_[column]);
            for (int i = 0; i < 3; ++i)
              for (int j = 0; j < 3; ++j)
                to[i * n + j] += static_cast<float>(blocks[line][9 * (3 * a + i) + 3 * b + j][l]);
          }
    }
  };
  // Rounds: the products in parallel, the sums in a fixed order.
  constexpr int per_round = 32;
  std::vector<LineBlocks> blocks(per_round);
  for (long first = 0; first < k.n_batches(); first += per_round) {
    const long n = std::min<long>(per_round, k.n_batches() - first);
    in_shares(k.n_shares(), [&](int s) {
      for (long b = n * s / k.n_shares(); b < n * (s + 1) / k.n_shares(); ++b)
        line_blocks(k, first + b, blocks[b]);
    });
    for (long b = 0; b < n; ++b) scatter(first + b, blocks[b]);
  }

  std::vector<std::vector<Direction>> out(columns.n_columns());
  for (const auto *some : {&admissible.held(), &admissible.on_adapter()})
    for (const Direction &d : *some) out[columns.column[d.at / 3]].push_back(d);
  in_shares(k.n_shares(), [&](int s) {
    std::vector<double> b;
    for (long c = k.shares()[s].first_column; c < k.shares()[s].last_column; ++c) {
      const int n = 3 * (start_[c + 1] - start_[c]);
      float *block = inverse_.data() + at_[c];
      b.assign(block, block + n * n);
      for (int i = 0; i < n; ++i) {
        float &largest = diagonal_[start_[c] + i / 3];
        largest = std::max(largest, block[i * n + i]);
      }
      for (const Direction &d : out[c])
        keep_out(b.data(), n, static_cast<int>(d.at - 3L * start_[c]), d.axis);
      invert(b.data(), n);
      for (int i = 0; i < n * n; ++i) block[i] = static_cast<float>(b[i]);
    }
  });
}

namespace {

/// z = B r
inline void product(const float *block, int n, const float *r, float *z) {
  if (n == 9) {
    float sum[16] = {};
    for (int j = 0; j < 9; ++j)
      for (int i = 0; i < 16; ++i) sum[i] += block[9 * j + i] * r[j];
    std::memcpy(z, sum, 9 * sizeof(float));
    return;
  }
  std::fill(z, z + n, 0.0f);
  for (int j = 0; j < n; ++j)
    for (int i = 0; i < n; ++i) z[i] += block[n * j + i] * r[j];
}

}  // namespace

__attribute__((target_clones("arch=skylake-avx512", "arch=haswell", "default"))) void
ColumnBlocks::step(long first, long last, const float *y, float *r, float *d, float *x,
                   float old_weight, float new_weight) const {
  float z[64];
  for (long c = first; c < last; ++c) {
    const long begin = 3L * start_[c];
    const int n = static_cast<int>(3L * start_[c + 1] - begin);
    float *rc = r + begin, *dc = d + begin;
    if (y)
      for (int i = 0; i < n; ++i) rc[i] -= y[begin + i];
    product(inverse_.data() + at_[c], n, rc, z);
    if (x)
      for (int i = 0; i < n; ++i) x[begin + i] += dc[i];
    if (old_weight != 0)
      for (int i = 0; i < n; ++i) dc[i] = old_weight * dc[i] + new_weight * z[i];
    else
      for (int i = 0; i < n; ++i) dc[i] = new_weight * z[i];
  }
}

}  // namespace felloe::detail
