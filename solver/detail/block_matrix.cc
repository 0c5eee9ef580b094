// SPDX-License-Identifier: GPL-3.0-or-later
// Pattern and product of the block matrix.
#include "solver/detail/block_matrix.h"

#include <algorithm>
#include <cassert>

#include "solver/detail/parallel.h"

namespace felloe::detail {
namespace {

/// Cells around each node, compressed.
struct CellsOfNodes {
  std::vector<int> start, cell;
};

CellsOfNodes cells_of_nodes(const Mesh &mesh) {
  CellsOfNodes around;
  around.start.assign(mesh.nodes.size() + 1, 0);
  for (const auto &nodes : mesh.cells)
    for (const int n : nodes) ++around.start[n + 1];
  for (std::size_t n = 0; n < mesh.nodes.size(); ++n) around.start[n + 1] += around.start[n];
  around.cell.resize(27 * mesh.cells.size());
  std::vector<int> next(around.start.begin(), around.start.end() - 1);
  for (std::size_t c = 0; c < mesh.cells.size(); ++c)
    for (const int n : mesh.cells[c]) around.cell[next[n]++] = static_cast<int>(c);
  return around;
}

}  // namespace

long BlockMatrix::index(int row_node, int column_node) const {
  const auto first = row.begin() + column_start[column_node];
  const auto last = row.begin() + column_start[column_node + 1];
  const auto found = std::lower_bound(first, last, row_node);
  assert(found != last && *found == row_node);
  return found - row.begin();
}

BlockMatrix pattern(const Mesh &mesh) {
  const CellsOfNodes around = cells_of_nodes(mesh);
  const int n = static_cast<int>(mesh.nodes.size());
  BlockMatrix a;
  a.column_start.assign(n + 1, 0);
  const int shares = n_threads();
  std::vector<std::vector<int>> rows_of_share(shares);
  in_parallel([&](int t) {
    std::vector<int> rows;
    for (long node = 1L * n * t / shares; node < 1L * n * (t + 1) / shares; ++node) {
      rows.assign(1, static_cast<int>(node));  // nodes without cells keep a diagonal
      for (int k = around.start[node]; k < around.start[node + 1]; ++k)
        for (const int other : mesh.cells[around.cell[k]])
          if (other > node) rows.push_back(other);
      std::sort(rows.begin(), rows.end());
      rows.erase(std::unique(rows.begin(), rows.end()), rows.end());
      a.column_start[node + 1] = static_cast<long>(rows.size());
      rows_of_share[t].insert(rows_of_share[t].end(), rows.begin(), rows.end());
    }
  });
  for (int node = 0; node < n; ++node) a.column_start[node + 1] += a.column_start[node];
  a.row.reserve(a.column_start[n]);
  for (const std::vector<int> &rows : rows_of_share)
    a.row.insert(a.row.end(), rows.begin(), rows.end());
  return a;
}

BlockMatrix zero_matrix(const Mesh &mesh) {
  BlockMatrix a = pattern(mesh);
  a.block.assign(a.row.size(), Block{});
  return a;
}

std::vector<double> node_diagonals(const BlockMatrix &a) {
  std::vector<double> largest;
  for (int n = 0; n < a.n_nodes(); ++n) {
    const Block &b = a.block[a.column_start[n]];
    largest.push_back(std::max({b[0], b[4], b[8]}));
  }
  return largest;
}

std::vector<double> multiply(const BlockMatrix &a, const std::vector<double> &x) {
  std::vector<double> y(x.size(), 0.0);
  for (int column = 0; column < a.n_nodes(); ++column) {
    const double *xc = x.data() + 3L * column;
    double *yc = y.data() + 3L * column;
    for (long e = a.column_start[column]; e < a.column_start[column + 1]; ++e) {
      const Block &b = a.block[e];
      const double *xr = x.data() + 3L * a.row[e];
      double *yr = y.data() + 3L * a.row[e];
      for (int i = 0; i < 3; ++i)
        yr[i] += b[3 * i] * xc[0] + b[3 * i + 1] * xc[1] + b[3 * i + 2] * xc[2];
      if (a.row[e] == column) continue;
      for (int j = 0; j < 3; ++j) yc[j] += b[j] * xr[0] + b[3 + j] * xr[1] + b[6 + j] * xr[2];
    }
  }
  return y;
}

namespace {

/// Eight numbers of one row, wherever they lie.
using Eight = double __attribute__((vector_size(64), aligned(8), may_alias));

const Eight &eight(const std::array<double, 8> &row) {
  return reinterpret_cast<const Eight &>(row);
}
Eight &eight(std::array<double, 8> &row) { return reinterpret_cast<Eight &>(row); }

// Wide instructions where they exist: the product reads the matrix once for all eight.
__attribute__((target_clones("arch=x86-64-v4", "arch=x86-64-v3", "default"))) void add_product(
    const BlockMatrix &a, const std::array<double, 8> *x, std::array<double, 8> *y) {
  for (int column = 0; column < a.n_nodes(); ++column) {
    const auto *xc = x + 3L * column;
    const Eight x0 = eight(xc[0]), x1 = eight(xc[1]), x2 = eight(xc[2]);
    Eight sum0{}, sum1{}, sum2{};
    for (long e = a.column_start[column]; e < a.column_start[column + 1]; ++e) {
      const Block &b = a.block[e];
      const auto *xr = x + 3L * a.row[e];
      auto *yr = y + 3L * a.row[e];
      const Eight r0 = eight(xr[0]), r1 = eight(xr[1]), r2 = eight(xr[2]);
      if (a.row[e] != column) {
        sum0 += b[0] * r0 + b[3] * r1 + b[6] * r2;
        sum1 += b[1] * r0 + b[4] * r1 + b[7] * r2;
        sum2 += b[2] * r0 + b[5] * r1 + b[8] * r2;
      }
      const Eight y0 = b[0] * x0 + b[1] * x1 + b[2] * x2, y1 = b[3] * x0 + b[4] * x1 + b[5] * x2,
                  y2 = b[6] * x0 + b[7] * x1 + b[8] * x2;
      eight(yr[0]) += y0;
      eight(yr[1]) += y1;
      eight(yr[2]) += y2;
    }
    auto *yc = y + 3L * column;
    eight(yc[0]) += sum0;
    eight(yc[1]) += sum1;
    eight(yc[2]) += sum2;
  }
}

}  // namespace

EightVectors multiply(const BlockMatrix &a, const EightVectors &x) {
  EightVectors y;
  multiply(a, x, y);
  return y;
}

void multiply(const BlockMatrix &a, const EightVectors &x, EightVectors &y) {
  y.assign(x.size(), std::array<double, 8>{});
  add_product(a, x.data(), y.data());
}

}  // namespace felloe::detail
