// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/detail/narrowed_contact.h"

#include <algorithm>

#include "mesher/error.h"
#include "solver/detail/blas.h"

namespace felloe::detail {
namespace {

std::vector<double> picked(const std::vector<double> &from, const std::vector<int> &which) {
  std::vector<double> some;
  some.reserve(which.size());
  for (const int i : which) some.push_back(from[i]);
  return some;
}

std::vector<double> block(const CondensedBody &b, const std::vector<int> &rows,
                          const std::vector<int> &columns) {
  std::vector<double> all;
  all.reserve(rows.size() * columns.size());
  for (const int j : columns)
    for (const int i : rows) all.push_back(b.stiffness[static_cast<std::size_t>(j) * b.n() + i]);
  return all;
}

/// c += sign a^T b for a: k x m, b: k x n.
void add_product(const std::vector<double> &a, const std::vector<double> &b, int m, int n, int k,
                 double sign, std::vector<double> &c) {
  if (m == 0 || n == 0 || k == 0) return;
  const double one = 1;
  dgemm_("T", "N", &m, &n, &k, &sign, a.data(), &k, b.data(), &k, &one, c.data(), &m);
}

}  // namespace

NarrowedContact::NarrowedContact(const CondensedBody &full, const std::vector<bool> &sticks)
    : full_(full), sticks_(sticks) {
  narrow_.n_nodes = full.n_nodes;
  narrow_.side = full.side;
  narrow_.gap = full.gap;
  narrow_.bolt_pull = full.bolt_pull;
  narrow_.plane_free = full.plane_free;
  narrow_.first = {0};
  for (int i = 0; i < full.n_nodes; ++i) {
    for (int c = full.first[i]; c < full.first[i + 1]; ++c) {
      const bool stays = sticks[i] || c == full.normal(i);
      (stays ? kept_ : gone_).push_back(c);
      if (stays) narrow_.plane.push_back(full.plane[c]);
    }
    narrow_.first.push_back(static_cast<int>(kept_.size()));
  }
  const int n_gone = static_cast<int>(gone_.size()), n_kept = static_cast<int>(kept_.size());
  factor_ = block(full, gone_, gone_);
  int info = 0;
  if (n_gone > 0) dpotrf_("L", &n_gone, factor_.data(), &n_gone, &info);
  if (info != 0)
    throw Error("contact: the body can move in the plane of the face: too few nodes stick");

  narrow_.stiffness = block(full, kept_, kept_);
  const std::vector<double> across = block(full, gone_, kept_);
  const std::vector<double> answers = solved(across, n_kept);
  add_product(across, answers, n_kept, n_kept, n_gone, -1, narrow_.stiffness);
  for (int j = 0; j < n_kept; ++j)
    for (int i = 0; i < j; ++i) {
      double &upper = narrow_.stiffness[static_cast<std::size_t>(j) * n_kept + i];
      double &lower = narrow_.stiffness[static_cast<std::size_t>(i) * n_kept + j];
      upper = lower = 0.5 * (upper + lower);
    }
  narrow_.bolt_give = full.bolt_give;
  for (int k = 0; k < full.n_bolts(); ++k) {
    const std::vector<double> lost = picked(full.bolt_reaction[k], gone_);
    narrow_.bolt_reaction.push_back(picked(full.bolt_reaction[k], kept_));
    add_product(answers, lost, n_kept, 1, n_gone, -1, narrow_.bolt_reaction.back());
    const std::vector<double> give = solved(lost, 1);
    for (int l = 0; l < full.n_bolts(); ++l)
      for (int i = 0; i < n_gone; ++i)
        narrow_.bolt_give[l][k] += full.bolt_reaction[l][gone_[i]] * give[i];
  }
}

std::vector<double> NarrowedContact::solved(std::vector<double> x, int n_columns) const {
  const int n = static_cast<int>(gone_.size());
  int info = 0;
  if (n > 0 && n_columns > 0) dpotrs_("L", &n, &n_columns, factor_.data(), &n, x.data(), &n, &info);
  return x;
}

/// The free components give way under r: u = -K_gg^-1 r_g.
CondensedLoad NarrowedContact::load(const CondensedLoad &full) const {
  CondensedLoad narrow{picked(full.reaction, kept_), full.travel, full.on_plane};
  const std::vector<double> give = solved(picked(full.reaction, gone_), 1);
  for (std::size_t g = 0; g < gone_.size(); ++g) {
    const double *column = full_.stiffness.data() + static_cast<std::size_t>(gone_[g]) * full_.n();
    for (std::size_t i = 0; i < kept_.size(); ++i) narrow.reaction[i] -= column[kept_[i]] * give[g];
    for (int k = 0; k < full_.n_bolts(); ++k)
      narrow.travel[k] += full_.bolt_reaction[k][gone_[g]] * give[g];
  }
  return narrow;
}

CondensedState NarrowedContact::widened(const CondensedLoad &load,
                                        const CondensedState &narrow) const {
  CondensedState full = narrow;
  full.relative.assign(full_.n(), 0.0);
  full.force.assign(full_.n(), 0.0);
  std::vector<double> force(picked(load.reaction, gone_));  // on what is gone, were it held
  const auto plane = [&](int c) {
    double u = 0;
    for (int m = 0; m < 6; ++m) u += full_.plane[c][m] * narrow.motion[m];
    return u;
  };
  for (std::size_t i = 0; i < kept_.size(); ++i) {
    full.relative[kept_[i]] = narrow.relative[i];
    full.force[kept_[i]] = narrow.force[i];
    const double u = narrow.relative[i] + plane(kept_[i]);
    const double *column = full_.stiffness.data() + static_cast<std::size_t>(kept_[i]) * full_.n();
    for (std::size_t g = 0; g < gone_.size(); ++g) force[g] += column[gone_[g]] * u;
  }
  for (int k = 0; k < full_.n_bolts(); ++k)
    for (std::size_t g = 0; g < gone_.size(); ++g)
      force[g] += full_.bolt_reaction[k][gone_[g]] * narrow.bolt_force[k];
  const std::vector<double> give = solved(force, 1);
  for (std::size_t g = 0; g < gone_.size(); ++g)
    full.relative[gone_[g]] = -give[g] - plane(gone_[g]);
  return full;
}

CondensedBody one_sector(const CondensedBody &full, const std::vector<int> &firsts,
                         const std::vector<int> &turned, int n_sectors) {
  CondensedBody s;
  s.n_nodes = static_cast<int>(firsts.size());
  s.side = full.side;
  s.first = {0};
  std::vector<int> rows;
  for (const int i : firsts) {
    s.gap.push_back(full.gap[i]);
    for (int c = full.first[i]; c < full.first[i + 1]; ++c) {
      rows.push_back(c);
      s.plane.push_back(full.plane[c]);
    }
    s.first.push_back(static_cast<int>(rows.size()));
  }
  // every image of a node moves as it does
  for (const int j : firsts)
    for (int c = 0; c < full.first[j + 1] - full.first[j]; ++c) {
      std::vector<double> column(rows.size(), 0.0);
      int image = j;
      do {
        const double *of_image =
            full.stiffness.data() + static_cast<std::size_t>(full.first[image] + c) * full.n();
        for (std::size_t i = 0; i < rows.size(); ++i) column[i] += of_image[rows[i]];
        image = turned[image];
      } while (image != j);
      s.stiffness.insert(s.stiffness.end(), column.begin(), column.end());
    }
  s.bolt_reaction.assign(1, std::vector<double>(rows.size(), 0.0));
  s.bolt_pull.assign(1, Six{});
  s.bolt_give = {{0}};
  for (int k = 0; k < full.n_bolts(); ++k) {
    for (std::size_t i = 0; i < rows.size(); ++i)
      s.bolt_reaction[0][i] += full.bolt_reaction[k][rows[i]];
    for (const int m : {2, 5}) s.bolt_pull[0][m] += full.bolt_pull[k][m] / n_sectors;
  }
  for (const int m : {2, 5}) s.plane_free[m] = full.plane_free[m];
  return s;
}

}  // namespace felloe::detail
