// SPDX-License-Identifier: GPL-3.0-or-later
// Pattern, factor and transfer of one share.
#include "solver/detail/coarse_part.h"

#include <algorithm>

namespace felloe::detail {

CoarsePart::CoarsePart(const CoarseInput &in, int share) : share_(share) {
  number_entities(in);
  make_pattern(in);
}

/// Distinct carrying columns of some places.
std::vector<int> CoarsePart::carriers_of(const CoarseInput &in, const int *places, int n) const {
  std::vector<int> all;
  for (int i = 0; i < n; ++i)
    for (int e = in.coarse.start[places[i]]; e < in.coarse.start[places[i] + 1]; ++e)
      all.push_back(in.coarse.carrier[e].column);
  std::sort(all.begin(), all.end());
  all.erase(std::unique(all.begin(), all.end()), all.end());
  return all;
}

namespace {

/// Calls visit(places, n) for the share's cells and ties.
template <class F>
void for_couplings(const CoarseInput &in, int share, F &&visit) {
  for (int k = in.columns.first_cell[share]; k < in.columns.first_cell[share + 1]; ++k)
    visit(in.columns.places[in.columns.order[k]].data(), 27);
  for (const auto &tie : in.everywhere.ties()) {
    if (share_of_tie(in.columns, tie) != share) continue;
    std::vector<int> places;
    for (const Direction &d : tie) places.push_back(static_cast<int>(d.at / 3));
    visit(places.data(), static_cast<int>(places.size()));
  }
}

}  // namespace

void CoarsePart::number_entities(const CoarseInput &in) {
  entity_of_.assign(in.unknowns.size.size(), -1);
  for_couplings(in, share_, [&](const int *places, int n) {
    for (int i = 0; i < n; ++i)
      for (int e = in.coarse.start[places[i]]; e < in.coarse.start[places[i] + 1]; ++e) {
        const int entity = in.unknowns.follower[in.coarse.carrier[e].column].entity;
        if (entity >= 0) entity_of_[entity] = 0;
      }
  });
  for (std::size_t e = 0; e < entity_of_.size(); ++e) {
    if (entity_of_[e] < 0) continue;
    entity_of_[e] = static_cast<int>(entity_.size());
    entity_.push_back({static_cast<int>(e), static_cast<int>(n_unknowns_), in.unknowns.size[e]});
    n_unknowns_ += entity_.back().size;
  }
}

void CoarsePart::make_pattern(const CoarseInput &in) {
  below_.resize(entity_.size());
  for_couplings(in, share_, [&](const int *places, int n) {
    const std::vector<int> carriers = carriers_of(in, places, n);
    for (const int i : carriers)
      for (const int j : carriers) {
        const int a = in.unknowns.follower[i].entity, b = in.unknowns.follower[j].entity;
        if (a >= 0 && b >= a) below_[entity_of_[a]].push_back(entity_of_[b]);
      }
  });
  for (auto &below : below_) {
    std::sort(below.begin(), below.end());
    below.erase(std::unique(below.begin(), below.end()), below.end());
    below.shrink_to_fit();
  }
  // Counted first: a growing vector would need its memory twice.
  long n_entries = 0;
  for (std::size_t e = 0; e < entity_.size(); ++e)
    for (const int f : below_[e]) {
      const long n = entity_[e].size;
      n_entries += f == static_cast<int>(e) ? n * (n + 1) / 2 : n * entity_[f].size;
    }
  matrix_.row.reserve(n_entries);
  matrix_.column_start.assign(1, 0);
  for (std::size_t e = 0; e < entity_.size(); ++e)
    for (int j = 0; j < entity_[e].size; ++j) {
      for (const int f : below_[e])
        for (int i = f == static_cast<int>(e) ? j : 0; i < entity_[f].size; ++i)
          matrix_.row.push_back(entity_[f].first + i);
      matrix_.column_start.push_back(static_cast<long>(matrix_.row.size()));
    }
  matrix_.value.assign(matrix_.row.size(), 0.0);
}

void CoarsePart::factor(const CoarseUnknowns &unknowns, std::vector<double> &border_matrix) {
  const std::vector<int> &border_of = unknowns.border;
  const long n_border = unknowns.n_border;
  below_ = {};
  entity_of_ = {};
  // Unknowns whose every node here is held.
  std::vector<char> filled(n_unknowns_, 0);
  for (long u = 0; u < n_unknowns_; ++u) {
    double &diagonal = matrix_.value[matrix_.column_start[u]];
    if (diagonal > 0) continue;
    diagonal = 1;
    filled[u] = 1;
  }
  std::vector<int> group;
  for (std::size_t e = 0; e < entity_.size(); ++e)
    group.insert(group.end(), entity_[e].size, static_cast<int>(e));
  std::vector<long> stays;
  std::vector<int> number(n_unknowns_, -1);
  for (const Entity &entity : entity_) {
    if (border_of[entity.number] < 0) continue;
    for (int i = 0; i < entity.size; ++i) {
      stays.push_back(entity.first + i);
      number[entity.first + i] = border_of[entity.number] + i;
    }
  }
  if (static_cast<long>(stays.size()) == n_unknowns_)
    keep_all(number, n_border, border_matrix);
  else
    eliminate_inside(stays, group, number, n_border, border_matrix);
  for (std::size_t i = 0; i < border_.size(); ++i)
    if (filled[stays_[i]]) border_matrix[(n_border + 1) * border_[i]] -= 1;
  matrix_ = {};
}

/// Pieces so small that every unknown lies on the border.
void CoarsePart::keep_all(const std::vector<int> &number, long n_border,
                          std::vector<double> &border_matrix) {
  border_ = number;
  for (long c = 0; c < n_unknowns_; ++c) {
    stays_.push_back(c);
    for (long e = matrix_.column_start[c]; e < matrix_.column_start[c + 1]; ++e) {
      const int i = number[matrix_.row[e]], j = number[c];
      border_matrix[n_border * j + i] += matrix_.value[e];
      if (i != j) border_matrix[n_border * i + j] += matrix_.value[e];
    }
  }
}

void CoarsePart::eliminate_inside(const std::vector<long> &stays, const std::vector<int> &group,
                                  const std::vector<int> &number, long n_border,
                                  std::vector<double> &border_matrix) {
  factor_ = std::make_unique<PartialCholesky>(matrix_, stays, group);
  // As in SparseCholesky: less is rounding.
  if (factor_->pivot_ratio() < 1e-14) throw NotPositiveDefinite(factor_->pivot_ratio());
  stays_ = factor_->border();
  for (const long u : stays_) border_.push_back(number[u]);
  const long m = static_cast<long>(border_.size());
  for (long j = 0; j < m; ++j)
    for (long i = 0; i < m; ++i)
      border_matrix[n_border * border_[j] + border_[i]] += factor_->schur()[j * m + i];
}

void CoarsePart::finish(const CoarseInput &in, const CellColumns &own) {
  std::vector<char> mine(in.columns.places.size(), 0);
  for (int k = in.columns.first_cell[share_]; k < in.columns.first_cell[share_ + 1]; ++k)
    mine[in.columns.order[k]] = 1;
  std::vector<int> first(in.unknowns.size.size(), -1);
  for (const Entity &entity : entity_) first[entity.number] = entity.first;
  std::vector<int> number(in.coarse.n_columns(), -1);
  start_.push_back(0);
  for (int p = 0; p < own.n_places(); ++p) {
    const int place = in.columns.place[own.node[p]];
    if (!mine[in.coarse.source[place]]) continue;
    place_.push_back(p);
    for (int e = in.coarse.start[place]; e < in.coarse.start[place + 1]; ++e) {
      Carrier carrier = in.coarse.carrier[e];
      int &column = number[carrier.column];
      if (column < 0) {
        column = static_cast<int>(follower_.size());
        Follower f = in.unknowns.follower[carrier.column];
        size_.push_back(f.entity < 0 ? 0 : in.unknowns.size[f.entity]);
        if (f.entity >= 0) f.entity = first[f.entity];
        follower_.push_back(f);
      }
      carrier.column = column;
      carrier_.push_back(carrier);
    }
    start_.push_back(static_cast<int>(carrier_.size()));
  }
  place_.shrink_to_fit();
  start_.shrink_to_fit();
  carrier_.shrink_to_fit();
  follower_.shrink_to_fit();
  entity_ = {};
}

void CoarsePart::restrict_and_condense(const float *r, double *border) {
  std::vector<Motion> sum(follower_.size(), Motion{});
  for (std::size_t k = 0; k < place_.size(); ++k) {
    const float *at = r + 3L * place_[k];
    const double w = 1.0 / (start_[k + 1] - start_[k]);
    const double f[3] = {w * at[0], w * at[1], w * at[2]};
    for (int e = start_[k]; e < start_[k + 1]; ++e) {
      const Carrier &carrier = carrier_[e];
      Motion &to = sum[carrier.column];
      for (int i = 0; i < 3; ++i) {
        const int i1 = (i + 1) % 3, i2 = (i + 2) % 3;
        to[i] += f[i];
        to[3 + i] += carrier.arm[i1] * f[i2] - carrier.arm[i2] * f[i1];
      }
    }
  }
  right_.assign(n_unknowns_, 0.0);
  for (std::size_t j = 0; j < follower_.size(); ++j)
    for (int i = 0; i < size_[j]; ++i)
      for (int a = 0; a < 6; ++a)
        right_[follower_[j].entity + i] += follower_[j].basis[a][i] * sum[j][a];
  const std::vector<double> condensed =
      factor_ ? factor_->condense(right_, 1, eliminated_) : right_;
  for (std::size_t i = 0; i < border_.size(); ++i) border[border_[i]] += condensed[i];
}

void CoarsePart::recover_and_prolong(const double *border, float *e) const {
  std::vector<double> given;
  for (const int b : border_) given.push_back(border[b]);
  const std::vector<double> x = factor_ ? factor_->recover(given, 1, eliminated_) : given;
  std::vector<Motion> motion(follower_.size(), Motion{});
  for (std::size_t j = 0; j < follower_.size(); ++j)
    for (int i = 0; i < size_[j]; ++i)
      for (int a = 0; a < 6; ++a)
        motion[j][a] += follower_[j].basis[a][i] * x[follower_[j].entity + i];
  for (std::size_t k = 0; k < place_.size(); ++k) {
    double u[3] = {};
    for (int c = start_[k]; c < start_[k + 1]; ++c) {
      const Carrier &carrier = carrier_[c];
      const Motion &m = motion[carrier.column];
      for (int i = 0; i < 3; ++i) {
        const int i1 = (i + 1) % 3, i2 = (i + 2) % 3;
        u[i] += m[i] + m[3 + i1] * carrier.arm[i2] - m[3 + i2] * carrier.arm[i1];
      }
    }
    const double w = 1.0 / (start_[k + 1] - start_[k]);
    for (int i = 0; i < 3; ++i) e[3L * place_[k] + i] = static_cast<float>(w * u[i]);
  }
}

}  // namespace felloe::detail
