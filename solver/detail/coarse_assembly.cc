// SPDX-License-Identifier: GPL-3.0-or-later
// The coarse matrix from the cells' products with the motions of their carrying columns.
#include <algorithm>
#include <cmath>
#include <unordered_map>

#include "solver/detail/coarse_part.h"

namespace felloe::detail {
namespace {

constexpr int lanes = n_lanes<double>;
constexpr int most_carriers = 8, most_motions = 6 * most_carriers;

/// Lexicographic number of the node at the kernels' place 3 a ... 3 a + 2.
int node_at(int a) { return a % 9 / 3 + 3 * (a / 9) + 9 * (a % 3); }

/// What the motions of a batch's carriers do to its nodes, and the energies between them.
struct BatchMotions {
  std::array<std::vector<int>, lanes> carriers;
  alignas(64) double u[most_motions][n_cell_unknowns][lanes];
  double energy[most_motions][most_motions][lanes];
};

/// Sum over the places of u f, lane by lane.
__attribute__((target_clones("arch=x86-64-v4", "arch=x86-64-v3", "default"))) void products(
    const double (*u)[lanes], const double (*f)[lanes], double *sum) {
  double s[lanes] = {};
  for (int p = 0; p < n_cell_unknowns; ++p)
    for (int l = 0; l < lanes; ++l) s[l] += u[p][l] * f[p][l];
  for (int l = 0; l < lanes; ++l) sum[l] = s[l];
}

using HeldPlanes = std::unordered_map<long, std::vector<Vec3>>;

/// Takes the held components out of a node's displacement.
void keep_held(const HeldPlanes &held, long at, Vec3 &u) {
  const auto found = held.find(at);
  if (found == held.end()) return;
  for (const Vec3 &e : found->second) u = subtract(u, scale(dot(e, u), e));
}

void fill_lane(const CoarseColumns &coarse, const HeldPlanes &held,
               const std::array<int, 27> &places, int lane, BatchMotions &batch) {
  const std::vector<int> &carriers = batch.carriers[lane];
  for (int a = 0; a < 27; ++a) {
    const int place = places[node_at(a)];
    const double w = coarse.weight(place);
    for (int e = coarse.start[place]; e < coarse.start[place + 1]; ++e) {
      const Carrier &carrier = coarse.carrier[e];
      const int j = static_cast<int>(
          std::lower_bound(carriers.begin(), carriers.end(), carrier.column) - carriers.begin());
      const Vec3 arm{carrier.arm[0], carrier.arm[1], carrier.arm[2]};
      for (int m = 0; m < 6; ++m) {
        Vec3 axis{};
        axis[m % 3] = w;
        Vec3 u = m < 3 ? axis : cross(axis, arm);
        keep_held(held, 3L * place, u);
        for (int i = 0; i < 3; ++i) batch.u[6 * j + m][3 * a + i][lane] += u[i];
      }
    }
  }
}

}  // namespace

void CoarsePart::add_cells(const CoarseInput &in, const CellOperator<double> &k, long first_batch,
                           long last_batch) {
  HeldPlanes held;
  for (const Direction &d : in.everywhere.held()) held[d.at].push_back(d.axis);
  const auto batch = std::make_unique<BatchMotions>();
  alignas(64) double lame[2 * lanes], f[n_cell_unknowns][lanes];
  for (long b = first_batch; b < last_batch; ++b) {
    std::size_t n = 0;
    for (int l = 0; l < lanes; ++l) {
      batch->carriers[l].clear();
      lame[l] = lame[lanes + l] = 0;
      const int c = k.cell(b, l);
      if (c < 0) continue;
      const double lambda = in.of_cells[c].lambda, mu = in.of_cells[c].mu;
      lame[l] = in.columns.loose[c] ? lambda : 2 * lambda * mu / (lambda + 2 * mu);
      lame[lanes + l] = mu;
      batch->carriers[l] = carriers_of(in, in.columns.places[c].data(), 27);
      n = std::max(n, batch->carriers[l].size());
    }
    std::fill(&batch->u[0][0][0], &batch->u[6 * n][0][0], 0.0);
    for (int l = 0; l < lanes; ++l)
      if (const int c = k.cell(b, l); c >= 0)
        fill_lane(in.coarse, held, in.columns.places[c], l, *batch);
    for (std::size_t i = 0; i < 6 * n; ++i) {
      cell_kernels<double>().cell_product(k.metric(b), lame, &batch->u[i][0][0], &f[0][0]);
      for (std::size_t j = 0; j <= i; ++j) {
        products(batch->u[j], f, batch->energy[i][j]);
        std::copy_n(batch->energy[i][j], lanes, batch->energy[j][i]);
      }
    }
    std::array<Motion, 6> block;
    for (int l = 0; l < lanes; ++l) {
      const std::vector<int> &carriers = batch->carriers[l];
      for (std::size_t r = 0; r < carriers.size(); ++r)
        for (std::size_t c = 0; c < carriers.size(); ++c) {
          for (int i = 0; i < 6; ++i)
            for (int j = 0; j < 6; ++j) block[i][j] = batch->energy[6 * r + i][6 * c + j][l];
          add(in, carriers[r], carriers[c], block);
        }
    }
  }
}

/// Tied nodes are held together by springs about as stiff as the nodes themselves, which is
/// modulus times thickness.
void CoarsePart::add_ties(const CoarseInput &in) {
  const CoarseColumns &coarse = in.coarse;
  double modulus = 0;
  for (const Lame &cell : in.of_cells) modulus = std::max(modulus, cell.lambda + 2 * cell.mu);
  for (const auto &tie : in.everywhere.ties()) {
    if (share_of_tie(in.columns, tie) != share_) continue;
    for (std::size_t other = 1; other < tie.size(); ++other) {
      const std::array<const Direction *, 2> ends{&tie[0], &tie[other]};
      double thickness = 1;
      for (const Direction *end : ends)
        thickness = std::max(thickness,
                             norm(coarse.along[coarse.carrier[coarse.start[end->at / 3]].column]));
      const double spring = modulus * thickness;
      std::vector<std::pair<int, Motion>> rows;
      for (int side = 0; side < 2; ++side) {
        const int place = static_cast<int>(ends[side]->at / 3);
        const double w = (side ? -1 : 1) * coarse.weight(place);
        for (int e = coarse.start[place]; e < coarse.start[place + 1]; ++e) {
          const Carrier &carrier = coarse.carrier[e];
          const Vec3 &axis = ends[side]->axis;
          const Vec3 turn = cross({carrier.arm[0], carrier.arm[1], carrier.arm[2]}, axis);
          rows.push_back(
              {carrier.column,
               {w * axis[0], w * axis[1], w * axis[2], w * turn[0], w * turn[1], w * turn[2]}});
        }
      }
      std::array<Motion, 6> block;
      for (const auto &[r, row] : rows)
        for (const auto &[c, column] : rows) {
          for (int i = 0; i < 6; ++i)
            for (int j = 0; j < 6; ++j) block[i][j] = spring * row[i] * column[j];
          add(in, r, c, block);
        }
    }
  }
}

/// Adds the stiffness between the motions of two carrying columns. Called for both orders of a
/// pair.
void CoarsePart::add(const CoarseInput &in, int row_column, int column_column,
                     const std::array<Motion, 6> &block) {
  const Follower &r = in.unknowns.follower[row_column], &c = in.unknowns.follower[column_column];
  if (r.entity < 0 || c.entity < 0 || r.entity < c.entity) return;
  const int row_entity = entity_of_[r.entity], column_entity = entity_of_[c.entity];
  const Entity &row = entity_[row_entity], &column = entity_[column_entity];
  long before = 0;
  for (const int f : below_[column_entity]) {
    if (f == row_entity) break;
    before += entity_[f].size;
  }
  const bool diagonal = row_entity == column_entity;
  for (int j = 0; j < column.size; ++j) {
    std::array<double, 6> half{};
    for (int a = 0; a < 6; ++a)
      for (int b = 0; b < 6; ++b) half[a] += block[a][b] * c.basis[b][j];
    double *to = matrix_.value.data() + matrix_.column_start[column.first + j] + before;
    for (int i = diagonal ? j : 0; i < row.size; ++i) {
      double sum = 0;
      for (int a = 0; a < 6; ++a) sum += r.basis[a][i] * half[a];
      to[i - j] += sum;
    }
  }
}

void CoarsePart::assemble(const CoarseInput &in, const CellOperator<double> &k, long first,
                          long last) {
  add_cells(in, k, first, last);
  add_ties(in);
}

}  // namespace felloe::detail
