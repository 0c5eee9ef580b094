// SPDX-License-Identifier: GPL-3.0-or-later
// Numbering of the coarse problem, the same on every process.
#include "solver/detail/coarse_unknowns.h"

#include <algorithm>
#include <cmath>

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

/// A new entity for a column that moves by itself.
Follower own_follower(const Vec3 &along, CoarseUnknowns &unknowns) {
  const bool rigid = norm(along) > 0;
  Follower f;
  f.entity = static_cast<int>(unknowns.size.size());
  unknowns.size.push_back(rigid ? 5 : 3);
  for (int i = 0; i < 3; ++i) f.basis[i][i] = 1;
  if (!rigid) return f;
  const auto axes = across(along);
  for (int a = 0; a < 2; ++a)
    for (int i = 0; i < 3; ++i) f.basis[3 + i][3 + a] = axes[a][i];
  return f;
}

Follower adapter_follower(const Vec3 &centre, int adapter) {
  Follower f;
  f.entity = adapter;
  for (int i = 0; i < 6; ++i) f.basis[i][i] = 1;
  for (int m = 0; m < 3; ++m) {
    Vec3 axis{};
    axis[m] = 1;
    const Vec3 t = cross(axis, centre);
    for (int i = 0; i < 3; ++i) f.basis[i][3 + m] = t[i];
  }
  return f;
}

/// Finds the entities that several shares touch.
void find_border(const CoarseColumns &coarse, const CellColumns &columns,
                 const Admissible &everywhere, CoarseUnknowns &unknowns) {
  constexpr int untouched = -1, several = -2;
  std::vector<int> toucher(unknowns.size.size(), untouched);
  const auto touch = [&](int place, int share) {
    for (int e = coarse.start[place]; e < coarse.start[place + 1]; ++e) {
      const int entity = unknowns.follower[coarse.carrier[e].column].entity;
      if (entity < 0) continue;
      int &by = toucher[entity];
      by = by == untouched || by == share ? share : several;
    }
  };
  for (int s = 0; s < columns.n_shares(); ++s)
    for (int k = columns.first_cell[s]; k < columns.first_cell[s + 1]; ++k)
      for (const int place : columns.places[columns.order[k]]) touch(place, s);
  for (const auto &tie : everywhere.ties())
    for (const Direction &d : tie) touch(static_cast<int>(d.at / 3), share_of_tie(columns, tie));
  unknowns.border.assign(unknowns.size.size(), -1);
  for (std::size_t e = 0; e < unknowns.size.size(); ++e)
    if (toucher[e] == several) {
      unknowns.border[e] = unknowns.n_border;
      unknowns.n_border += unknowns.size[e];
    }
}

}  // namespace

int share_of_tie(const CellColumns &columns, const std::vector<Direction> &tie) {
  const int column = columns.column[tie[0].at / 3];
  const auto &first = columns.first_column;
  return static_cast<int>(std::upper_bound(first.begin(), first.end() - 1, column) -
                          first.begin()) -
         1;
}

CoarseUnknowns coarse_unknowns(const CoarseColumns &coarse, const CellColumns &columns,
                               const Admissible &everywhere) {
  std::vector<char> on_adapter(columns.n_columns(), 0);
  std::vector<int> n_held(columns.n_columns(), 0);
  for (const Direction &d : everywhere.on_adapter()) on_adapter[columns.column[d.at / 3]] = 1;
  for (const Direction &d : everywhere.held()) ++n_held[columns.column[d.at / 3]];
  CoarseUnknowns unknowns;
  unknowns.follower.resize(coarse.n_columns());
  std::vector<int> slaves;
  for (int j = 0; j < coarse.n_columns(); ++j) {
    const int c = coarse.column[j];
    if (on_adapter[c])
      slaves.push_back(j);
    else if (n_held[c] < 3 * (columns.start[c + 1] - columns.start[c]))
      unknowns.follower[j] = own_follower(coarse.along[j], unknowns);
  }
  if (!slaves.empty()) {
    const int adapter = static_cast<int>(unknowns.size.size());
    unknowns.size.push_back(6);
    for (const int j : slaves) unknowns.follower[j] = adapter_follower(coarse.centre[j], adapter);
  }
  for (const int n : unknowns.size) unknowns.n_unknowns += n;
  if (columns.n_shares() > 1)
    find_border(coarse, columns, everywhere, unknowns);
  else
    unknowns.border.assign(unknowns.size.size(), -1);
  return unknowns;
}

}  // namespace felloe::detail
