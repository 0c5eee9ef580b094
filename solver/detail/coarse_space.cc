// SPDX-License-Identifier: GPL-3.0-or-later
// Numbering, pattern, factor and transfer of the coarse problem.
#include "solver/detail/coarse_space.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "solver/detail/in_shares.h"

namespace felloe::detail {
namespace {

std::array<Vec3, 2> across(const Vec3 &direction) {
  const Vec3 d = scale(1 / norm(direction), direction);
  int smallest = 0;
  for (int i = 1; i < 3; ++i)
    if (std::abs(d[i]) < std::abs(d[smallest])) smallest = i;
  Vec3 axis{};
  axis[smallest] = 1;
  Vec3 first = cross(d, axis);
  first = scale(1 / norm(first), first);
  return {first, cross(d, first)};
}

}  // namespace

CoarseSpace::CoarseSpace(const Mesh &mesh, const CellColumns &columns,
                         const CellOperator<double> &k, const std::vector<Lame> &of_cells,
                         const Admissible &admissible)
    : coarse_(coarse_columns(mesh, columns)) {
  for (const auto &share : k.shares())
    shares_.push_back({share.first_component / 3, share.last_component / 3});
  number(columns, admissible);
  make_pattern(columns, admissible);
  add_cells(columns, k, of_cells, admissible);
  add_ties(of_cells, admissible);
  // Unknowns whose every node is held.
  for (int c = 0; c < n_unknowns_; ++c) {
    double &diagonal = matrix_.value[matrix_.column_start[c]];
    if (!(diagonal > 0)) diagonal = 1;
  }
  std::vector<int> group;
  for (std::size_t e = 0; e < entity_.size(); ++e)
    group.insert(group.end(), entity_[e].n, static_cast<int>(e));
  below_ = {};
  factor_ = std::make_unique<SparseCholesky>(matrix_, group);
  matrix_ = {};
}

/// Which unknowns each column follows: five or three of its own, the adapter's six, or none.
void CoarseSpace::number(const CellColumns &columns, const Admissible &admissible) {
  std::vector<char> on_adapter(columns.n_columns(), 0);
  std::vector<int> n_held(columns.n_columns(), 0);
  for (const Direction &d : admissible.on_adapter()) on_adapter[columns.column[d.at / 3]] = 1;
  for (const Direction &d : admissible.held()) ++n_held[columns.column[d.at / 3]];
  follower_.resize(coarse_.n_columns());
  std::vector<int> slaves;
  for (int j = 0; j < coarse_.n_columns(); ++j) {
    const int c = coarse_.column[j];
    Follower &f = follower_[j];
    if (on_adapter[c]) {
      slaves.push_back(j);
      continue;
    }
    if (n_held[c] == 3 * (columns.start[c + 1] - columns.start[c])) continue;
    const bool rigid = norm(coarse_.along[j]) > 0;
    f.entity = static_cast<int>(entity_.size());
    entity_.push_back({n_unknowns_, rigid ? 5 : 3});
    n_unknowns_ += entity_.back().n;
    for (int i = 0; i < 3; ++i) f.basis[i][i] = 1;
    if (!rigid) continue;
    const auto axes = across(coarse_.along[j]);
    for (int a = 0; a < 2; ++a)
      for (int i = 0; i < 3; ++i) f.basis[3 + i][3 + a] = axes[a][i];
  }
  if (slaves.empty()) return;
  const int adapter = static_cast<int>(entity_.size());
  entity_.push_back({n_unknowns_, 6});
  n_unknowns_ += 6;
  for (const int j : slaves) {
    Follower &f = follower_[j];
    f.entity = adapter;
    for (int i = 0; i < 6; ++i) f.basis[i][i] = 1;
    for (int m = 0; m < 3; ++m) {
      Vec3 axis{};
      axis[m] = 1;
      const Vec3 t = cross(axis, coarse_.centre[j]);
      for (int i = 0; i < 3; ++i) f.basis[i][3 + m] = t[i];
    }
  }
}

std::vector<int> CoarseSpace::carriers_of(const std::array<int, 27> &places) const {
  std::vector<int> all;
  for (const int p : places)
    for (int e = coarse_.start[p]; e < coarse_.start[p + 1]; ++e)
      all.push_back(coarse_.carrier[e].column);
  std::sort(all.begin(), all.end());
  all.erase(std::unique(all.begin(), all.end()), all.end());
  return all;
}

void CoarseSpace::make_pattern(const CellColumns &columns, const Admissible &admissible) {
  below_.resize(entity_.size());
  const auto couple = [&](const std::vector<int> &carriers) {
    for (const int i : carriers)
      for (const int j : carriers) {
        const int a = follower_[i].entity, b = follower_[j].entity;
        if (a >= 0 && b >= a) below_[a].push_back(b);
      }
  };
  for (const auto &places : columns.places) couple(carriers_of(places));
  for (const auto &tie : admissible.ties()) {
    std::array<int, 27> places;
    for (std::size_t i = 0; i < 27; ++i)
      places[i] = static_cast<int>(tie[std::min(i, tie.size() - 1)].at / 3);
    couple(carriers_of(places));
  }
  for (auto &below : below_) {
    std::sort(below.begin(), below.end());
    below.erase(std::unique(below.begin(), below.end()), below.end());
    below.shrink_to_fit();
  }
  // Counted first: a growing vector would need its memory twice.
  long n_entries = 0;
  for (std::size_t e = 0; e < entity_.size(); ++e)
    for (const int f : below_[e]) {
      const long n = entity_[e].n;
      n_entries += f == static_cast<int>(e) ? n * (n + 1) / 2 : n * entity_[f].n;
    }
  matrix_.row.reserve(n_entries);
  matrix_.column_start.assign(1, 0);
  for (std::size_t e = 0; e < entity_.size(); ++e) {
    for (int j = 0; j < entity_[e].n; ++j) {
      for (const int f : below_[e])
        for (int i = f == static_cast<int>(e) ? j : 0; i < entity_[f].n; ++i)
          matrix_.row.push_back(entity_[f].first + i);
      matrix_.column_start.push_back(static_cast<long>(matrix_.row.size()));
    }
  }
  matrix_.value.assign(matrix_.row.size(), 0.0);
}

/// Adds the stiffness between the motions of two carrying columns. Called for both orders of a
/// pair.
void CoarseSpace::add(int row_column, int column_column, const std::array<Motion, 6> &block) {
  const Follower &r = follower_[row_column], &c = follower_[column_column];
  if (r.entity < 0 || c.entity < 0 || r.entity < c.entity) return;
  const Entity &row = entity_[r.entity], &column = entity_[c.entity];
  long before = 0;
  for (const int f : below_[c.entity]) {
    if (f == r.entity) break;
    before += entity_[f].n;
  }
  const bool diagonal = r.entity == c.entity;
  for (int j = 0; j < column.n; ++j) {
    std::array<double, 6> half{};
    for (int a = 0; a < 6; ++a)
      for (int b = 0; b < 6; ++b) half[a] += block[a][b] * c.basis[b][j];
    double *to = matrix_.value.data() + matrix_.column_start[column.first + j] + before;
    for (int i = diagonal ? j : 0; i < row.n; ++i) {
      double sum = 0;
      for (int a = 0; a < 6; ++a) sum += r.basis[a][i] * half[a];
      to[i - j] += sum;
    }
  }
}

void CoarseSpace::correct(const float *r, float *e) const {
  const int n_shares = static_cast<int>(shares_.size());
  std::vector<std::vector<Motion>> sums(n_shares);
  in_shares(n_shares, [&](int s) {
    sums[s].assign(coarse_.n_columns(), Motion{});
    for (long p = shares_[s][0]; p < shares_[s][1]; ++p) {
      const double w = coarse_.weight(static_cast<int>(p));
      const double f[3] = {w * r[3 * p], w * r[3 * p + 1], w * r[3 * p + 2]};
      for (int k = coarse_.start[p]; k < coarse_.start[p + 1]; ++k) {
        const Carrier &carrier = coarse_.carrier[k];
        Motion &to = sums[s][carrier.column];
        for (int i = 0; i < 3; ++i) {
          const int i1 = (i + 1) % 3, i2 = (i + 2) % 3;
          to[i] += f[i];
          to[3 + i] += carrier.arm[i1] * f[i2] - carrier.arm[i2] * f[i1];
        }
      }
    }
  });
  std::vector<double> right(n_unknowns_, 0.0);
  for (int j = 0; j < coarse_.n_columns(); ++j) {
    const Follower &f = follower_[j];
    if (f.entity < 0) continue;
    for (int s = 1; s < n_shares; ++s)
      for (int a = 0; a < 6; ++a) sums[0][j][a] += sums[s][j][a];
    for (int i = 0; i < entity_[f.entity].n; ++i)
      for (int a = 0; a < 6; ++a)
        right[entity_[f.entity].first + i] += f.basis[a][i] * sums[0][j][a];
  }
  const std::vector<double> x = factor_->solve(right, 1);
  std::vector<Motion> &motion = sums[0];
  for (int j = 0; j < coarse_.n_columns(); ++j) {
    const Follower &f = follower_[j];
    motion[j] = {};
    if (f.entity < 0) continue;
    for (int i = 0; i < entity_[f.entity].n; ++i)
      for (int a = 0; a < 6; ++a) motion[j][a] += f.basis[a][i] * x[entity_[f.entity].first + i];
  }
  in_shares(n_shares, [&](int s) {
    for (long p = shares_[s][0]; p < shares_[s][1]; ++p) {
      const double w = coarse_.weight(static_cast<int>(p));
      double u[3] = {};
      for (int k = coarse_.start[p]; k < coarse_.start[p + 1]; ++k) {
        const Carrier &carrier = coarse_.carrier[k];
        const Motion &m = motion[carrier.column];
        for (int i = 0; i < 3; ++i) {
          const int i1 = (i + 1) % 3, i2 = (i + 2) % 3;
          u[i] += m[i] + m[3 + i1] * carrier.arm[i2] - m[3 + i2] * carrier.arm[i1];
        }
      }
      for (int i = 0; i < 3; ++i) e[3 * p + i] = static_cast<float>(w * u[i]);
    }
  });
}

}  // namespace felloe::detail
