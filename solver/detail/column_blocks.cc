// SPDX-License-Identifier: GPL-3.0-or-later
// Blocks from products with unit vectors, cell by cell.
#include "solver/detail/column_blocks.h"

#include <algorithm>
#include <array>

#include "solver/detail/dense.h"
#include "solver/detail/in_shares.h"

namespace felloe::detail {
namespace {

constexpr int cells = n_lanes<double>;

/// Lexicographic number of the node at the kernels' place 3 a ... 3 a + 2.
int node_at(int a) { return a % 9 / 3 + 3 * (a / 9) + 9 * (a % 3); }

/// Stiffness within each line of three nodes along k: [line][row][column][cell].
using LineBlocks = std::array<std::array<std::array<double, cells>, 81>, 9>;

void line_blocks(const CellOperator<double> &k, long batch, LineBlocks &blocks) {
  alignas(64) double u[81 * cells] = {}, f[81 * cells];
  for (int p = 0; p < 81; ++p) {
    std::fill(u + p * cells, u + (p + 1) * cells, 1.0);
    cell_kernels<double>().cell_product(k.metric(batch), k.lame(batch), u, f);
    std::fill(u + p * cells, u + (p + 1) * cells, 0.0);
    const int line = p / 9;
    for (int i = 0; i < 9; ++i)
      for (int l = 0; l < cells; ++l)
        blocks[line][9 * i + p % 9][l] = f[(9 * line + i) * cells + l];
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
    : group_of_(columns.n_columns()), diagonal_(columns.n_places()) {
  long at = 0, ghosts_at = 0;
  const auto make_groups = [&](int first, int last) {
    for (int c = first; c < last; ++c) {
      const int n = 3 * (columns.start[c + 1] - columns.start[c]);
      if (c == first || group_.back().n != n || group_.back().n_columns == lanes) {
        group_.push_back({c, 0, n, 3L * columns.start[c], at});
        at += n * (n + 1L) / 2 * lanes;
      }
      ++group_.back().n_columns;
      group_of_[c] = static_cast<int>(group_.size()) - 1;
    }
  };
  for (int s = 0; s < columns.n_shares(); ++s) {
    first_group_.push_back(static_cast<int>(group_.size()));
    make_groups(columns.first_column[s], columns.first_column[s + 1]);
  }
  first_group_.push_back(static_cast<int>(group_.size()));
  ghosts_at = at;
  make_groups(columns.first_column.back(), columns.n_columns());
  number_.assign(at, 0.0f);
  add_cells(k, columns);
  add_ghosts(columns, k.exchange());
  number_.resize(ghosts_at);
  group_.resize(first_group_.back());

  std::vector<std::vector<Direction>> out(columns.n_columns());
  for (const auto *some : {&admissible.held(), &admissible.on_adapter()})
    for (const Direction &d : *some) out[columns.column[d.at / 3]].push_back(d);
  in_shares(k.n_shares(), [&](int s) {
    for (int g = first_group_[s]; g < first_group_[s + 1]; ++g)
      invert_group(group_[g], columns, out);
  });
  group_of_ = {};
}

void ColumnBlocks::add_cells(const CellOperator<double> &k, const CellColumns &columns) {
  const auto scatter = [&](long batch, const LineBlocks &blocks) {
    for (int l = 0; l < cells; ++l) {
      const int cell = k.cell(batch, l);
      if (cell < 0) continue;
      for (int line = 0; line < 9; ++line)
        for (int a = 0; a < 3; ++a)
          for (int b = 0; b < 3; ++b) {
            const int row = columns.places[cell][node_at(3 * line + a)];
            const int other = columns.places[cell][node_at(3 * line + b)];
            const int column = columns.column[row];
            if (columns.column[other] != column || other > row) continue;
            const Group &group = group_[group_of_[column]];
            const int first_row = 3 * (row - columns.start[column]),
                      first_column = 3 * (other - columns.start[column]);
            for (int i = 0; i < 3; ++i)
              for (int j = 0; j < (row == other ? i + 1 : 3); ++j)
                entry(group, column, first_row + i, first_column + j) +=
                    static_cast<float>(blocks[line][9 * (3 * a + i) + 3 * b + j][l]);
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
}

/// What cells of this process do to columns of others: column by column of all blocks at once, as
/// vectors.
void ColumnBlocks::add_ghosts(const CellColumns &columns, const NodeExchange &exchange) {
  if (exchange.alone()) return;
  std::vector<float> v(3L * columns.n_places());
  for (int j = 0; j < 3 * columns.longest; ++j) {
    const auto for_entries = [&](auto &&body) {
      for (int c = 0; c < columns.n_columns(); ++c) {
        const Group &group = group_[group_of_[c]];
        for (int i = j; i < group.n; ++i) body(entry(group, c, i, j), v[3L * columns.start[c] + i]);
      }
    };
    std::fill(v.begin(), v.end(), 0.0f);
    for_entries([](float &number, float &at) { at = number; });
    exchange.add_ghosts(v.data());
    for_entries([](float &number, float &at) { number = at; });
  }
}

void ColumnBlocks::invert_group(const Group &group, const CellColumns &columns,
                                const std::vector<std::vector<Direction>> &out) {
  const int n = group.n;
  std::vector<double> b(n * n);
  for (int c = group.first; c < group.first + group.n_columns; ++c) {
    for (int i = 0; i < n; ++i) {
      for (int j = 0; j <= i; ++j) b[i * n + j] = b[j * n + i] = entry(group, c, i, j);
      float &largest = diagonal_[columns.start[c] + i / 3];
      largest = std::max(largest, entry(group, c, i, i));
    }
    for (const Direction &d : out[c])
      keep_out(b.data(), n, static_cast<int>(d.at - 3L * columns.start[c]), d.axis);
    invert(b.data(), n);
    for (int i = 0; i < n; ++i)
      for (int j = 0; j <= i; ++j) entry(group, c, i, j) = static_cast<float>(b[i * n + j]);
  }
}

namespace {

typedef float Sixteen __attribute__((vector_size(64)));

/// z = B r for sixteen columns of n components, or fewer.
inline __attribute__((always_inline)) void product(const float *numbers, int n, int n_columns,
                                                   const float *r, float *z) {
  Sixteen from[51], to[51];
  if (n_columns < 16)
    for (int i = 0; i < n; ++i) from[i] = Sixteen{};
  for (int l = 0; l < n_columns; ++l)
    for (int i = 0; i < n; ++i) from[i][l] = r[l * n + i];
  const Sixteen *b = reinterpret_cast<const Sixteen *>(numbers);
  for (int i = 0; i < n; ++i) {
    Sixteen sum{};
    for (int j = 0; j < i; ++j, ++b) {
      sum += *b * from[j];
      to[j] += *b * from[i];
    }
    to[i] = sum + *b++ * from[i];
  }
  for (int l = 0; l < n_columns; ++l)
    for (int i = 0; i < n; ++i) z[l * n + i] = to[i][l];
}

}  // namespace

__attribute__((target_clones("arch=x86-64-v4", "arch=x86-64-v3", "default"))) void
ColumnBlocks::step(int share, const float *y, float *r, float *d, float *x, float old_weight,
                   float new_weight) const {
  float z[51 * lanes];
  for (int g = first_group_[share]; g < first_group_[share + 1]; ++g) {
    const Group &group = group_[g];
    const long begin = group.component;
    const int n = group.n, size = n * group.n_columns;
    float *rc = r + begin, *dc = d + begin;
    if (y)
      for (int i = 0; i < size; ++i) rc[i] -= y[begin + i];
    const float *numbers = number_.data() + group.at;
    if (n == 15 && group.n_columns == lanes)
      product(numbers, 15, lanes, rc, z);
    else if (n == 9 && group.n_columns == lanes)
      product(numbers, 9, lanes, rc, z);
    else
      product(numbers, n, group.n_columns, rc, z);
    if (x)
      for (int i = 0; i < size; ++i) x[begin + i] += dc[i];
    if (old_weight != 0)
      for (int i = 0; i < size; ++i) dc[i] = old_weight * dc[i] + new_weight * z[i];
    else
      for (int i = 0; i < size; ++i) dc[i] = new_weight * z[i];
  }
}

}  // namespace felloe::detail
