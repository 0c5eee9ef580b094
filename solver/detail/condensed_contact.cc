// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/detail/condensed_contact.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "mesher/error.h"
#include "solver/detail/blas.h"

namespace felloe::detail {

bool eliminate(std::vector<std::vector<double>> &rows) {
  const std::size_t n = rows.size();
  std::vector<double> size(n, 0.0);
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = 0; j < n; ++j) size[i] = std::max(size[i], std::abs(rows[i][j]));
  for (std::size_t i = 0; i < n; ++i) {
    std::size_t pivot = i;
    double best = -1;
    for (std::size_t r = i; r < n; ++r) {
      const double weight = size[r] > 0 ? std::abs(rows[r][i]) / size[r] : 0;
      if (weight > best) best = weight, pivot = r;
    }
    if (!(best > 1e-11)) return false;
    std::swap(rows[i], rows[pivot]);
    std::swap(size[i], size[pivot]);
    for (std::size_t r = 0; r < n; ++r) {
      if (r == i) continue;
      const double f = rows[r][i] / rows[i][i];
      if (f != 0)
        for (std::size_t c = i; c <= n; ++c) rows[r][c] -= f * rows[i][c];
    }
  }
  for (std::size_t i = 0; i < n; ++i) rows[i][n] /= rows[i][i];
  return true;
}

void fix_rest(const CondensedBody &b, const std::vector<BoltLaw> &laws, const ContactSet &set,
              std::vector<std::vector<double>> &rows) {
  const auto fix = [&](int k, double value) {
    std::fill(rows[k].begin(), rows[k].end(), 0.0);
    rows[k][k] = 1;
    rows[k].back() = value;
  };
  for (int m = 0; m < 6; ++m)
    if (!b.plane_free[m]) fix(m, 0);
  for (int k = 0; k < b.n_bolts(); ++k)
    if (laws[k].stiffness == 0)
      fix(6 + k, laws[k].preload);
    else if (!set.taut[k])
      fix(6 + k, 0);
}

namespace {

double sum_of_products(const std::vector<double> &a, const std::vector<double> &b) {
  double sum = 0;
  for (std::size_t i = 0; i < a.size(); ++i) sum += a[i] * b[i];
  return sum;
}

std::vector<double> product(const std::vector<double> &matrix, const std::vector<double> &x) {
  const std::size_t n = x.size();
  std::vector<double> y(n, 0.0);
  for (std::size_t j = 0; j < n; ++j)
    if (x[j] != 0)
      for (std::size_t i = 0; i < n; ++i) y[i] += matrix[j * n + i] * x[j];
  return y;
}

/// Solves for one set after another. Unknowns: d of the open components, then the few others:
/// motions of the plane and bolt forces ("rest").
class Trial {
 public:
  Trial(const CondensedBody &body, const CondensedLoad &load, const std::vector<BoltLaw> &laws)
      : b_(body), load_(load), laws_(laws), n_rest_(6 + body.n_bolts()) {
    // columns by which the rest acts on the face: K T and P
    for (int m = 0; m < 6; ++m) {
      std::vector<double> t(b_.n());
      for (int i = 0; i < b_.n(); ++i) t[i] = b_.plane[i][m];
      on_face_.push_back(product(b_.stiffness, t));
      plane_.push_back(std::move(t));
    }
    for (const auto &column : b_.bolt_reaction) on_face_.push_back(column);
  }

  /// False when the set leaves a motion free.
  /// @param gaps  1, or 0 for a change of state
  bool solve(CondensedState &s, double gaps = 1) {
    std::vector<int> open;
    s.relative.assign(b_.n(), 0.0);
    for (int i = 0; i < b_.n_nodes; ++i) {
      const int normal = b_.normal(i);
      if (!s.set.sticks[i])
        for (int across = b_.first[i]; across < normal; ++across) open.push_back(across);
      if (s.set.closed[i])
        s.relative[normal] = gaps * b_.side * b_.gap[i];
      else
        open.push_back(normal);
    }
    // forces on the face with nothing but the load and the closed gaps
    std::vector<double> given = product(b_.stiffness, s.relative);
    for (int i = 0; i < b_.n(); ++i) given[i] += load_.reaction[i];

    std::vector<double> answers;  // of the open components to each column of the rest, and to given
    if (!condense(open, given, answers)) return false;
    std::vector<std::vector<double>> rows = rest_rows(s, given);
    const int n_open = static_cast<int>(open.size());
    std::array<double, 6> stiffness;  // of the plane's motions against the face at rest
    for (int m = 0; m < 6; ++m) stiffness[m] = std::abs(rows[m][m]);
    for (int k = 0; k < n_rest_; ++k)
      for (int l = 0; l <= n_rest_; ++l) {
        double sum = 0;
        for (int i = 0; i < n_open; ++i) sum += on_face_[k][open[i]] * answers[l * n_open + i];
        rows[k][l] += l == n_rest_ ? sum : -sum;
      }
    // What the open components leave of it may be mere rounding: then the plane moves freely.
    for (int k = 0; k < 6; ++k)
      for (int l = 0; l < 6; ++l)
        if (std::abs(rows[k][l]) < 1e-11 * std::sqrt(stiffness[k] * stiffness[l])) rows[k][l] = 0;
    fix_rest(b_, laws_, s.set, rows);
    if (!eliminate(rows)) return false;
    for (int m = 0; m < 6; ++m) s.motion[m] = rows[m][n_rest_];
    for (int k = 0; k < b_.n_bolts(); ++k) s.bolt_force[k] = rows[6 + k][n_rest_];
    for (int i = 0; i < n_open; ++i) {
      s.relative[open[i]] = -answers[n_rest_ * n_open + i];
      for (int l = 0; l < n_rest_; ++l)
        s.relative[open[i]] -= answers[l * n_open + i] * rows[l][n_rest_];
    }
    forces(s, open);
    return true;
  }

 private:
  /// Cholesky of K on the open components, all columns solved.
  bool condense(const std::vector<int> &open, const std::vector<double> &given,
                std::vector<double> &answers) const {
    const int n = static_cast<int>(open.size()), n_columns = n_rest_ + 1;
    if (n == 0) return true;
    std::vector<double> matrix(static_cast<std::size_t>(n) * n);
    for (int j = 0; j < n; ++j)
      for (int i = j; i < n; ++i)
        matrix[static_cast<std::size_t>(j) * n + i] =
            b_.stiffness[static_cast<std::size_t>(open[j]) * b_.n() + open[i]];
    int info = 0;
    double largest = 0, smallest = 1e300;
    for (int i = 0; i < n; ++i)
      largest = std::max(largest, matrix[static_cast<std::size_t>(i) * n + i]);
    dpotrf_("L", &n, matrix.data(), &n, &info);
    if (info != 0) return false;
    for (int i = 0; i < n; ++i)
      smallest = std::min(smallest, matrix[static_cast<std::size_t>(i) * n + i]);
    if (!(smallest * smallest > 1e-10 * largest)) return false;
    answers.reserve(static_cast<std::size_t>(n) * n_columns);
    for (int l = 0; l < n_columns; ++l) {
      const std::vector<double> &column = l == n_rest_ ? given : on_face_[l];
      for (const int i : open) answers.push_back(column[i]);
    }
    dpotrs_("L", &n, &n_columns, matrix.data(), &n, answers.data(), &n, &info);
    return info == 0;
  }

  /// Balance of the plane and law of the bolts with the open components at rest.
  std::vector<std::vector<double>> rest_rows(const CondensedState &s,
                                             const std::vector<double> &given) const {
    std::vector<std::vector<double>> rows(n_rest_, std::vector<double>(n_rest_ + 1, 0.0));
    for (int k = 0; k < 6; ++k) {
      for (int l = 0; l < n_rest_; ++l) {
        rows[k][l] = sum_of_products(plane_[k], on_face_[l]);
        if (l >= 6) rows[k][l] += b_.bolt_pull[l - 6][k];
        if (l >= 6) rows[l][k] = rows[k][l];
      }
      rows[k][n_rest_] = load_.on_plane[k] - sum_of_products(plane_[k], given);
    }
    for (int k = 0; k < b_.n_bolts(); ++k) {
      for (int l = 0; l < b_.n_bolts(); ++l) rows[6 + k][6 + l] = -b_.bolt_give[k][l];
      if (laws_[k].stiffness > 0) rows[6 + k][6 + k] -= 1 / laws_[k].stiffness;
      rows[6 + k][n_rest_] =
          load_.travel[k] + laws_[k].reference - sum_of_products(b_.bolt_reaction[k], s.relative);
      if (laws_[k].stiffness > 0) rows[6 + k][n_rest_] -= laws_[k].preload / laws_[k].stiffness;
    }
    return rows;
  }

  void forces(CondensedState &s, const std::vector<int> &open) const {
    s.force = product(b_.stiffness, s.relative);
    for (int i = 0; i < b_.n(); ++i) {
      s.force[i] += load_.reaction[i];
      for (int m = 0; m < 6; ++m) s.force[i] += on_face_[m][i] * s.motion[m];
      for (int k = 0; k < b_.n_bolts(); ++k) s.force[i] += on_face_[6 + k][i] * s.bolt_force[k];
    }
    for (const int i : open) s.force[i] = 0;  // up to rounding they are
    for (int k = 0; k < b_.n_bolts(); ++k) {
      // the seat travels along the pull: towards the plane, so that the bolt gets shorter
      double e = sum_of_products(b_.bolt_reaction[k], s.relative) - load_.travel[k];
      for (int m = 0; m < 6; ++m)
        e += (sum_of_products(plane_[m], b_.bolt_reaction[k]) + b_.bolt_pull[k][m]) * s.motion[m];
      for (int l = 0; l < b_.n_bolts(); ++l) e -= b_.bolt_give[k][l] * s.bolt_force[l];
      s.elongation[k] = e;
    }
  }

  const CondensedBody &b_;
  const CondensedLoad &load_;
  const std::vector<BoltLaw> &laws_;
  const int n_rest_;
  std::vector<std::vector<double>> on_face_, plane_;
};

double largest_size(const std::vector<double> &v) {
  double size = 0;
  for (const double x : v) size = std::max(size, std::abs(x));
  return size;
}

double normal_force(const CondensedBody &b, const CondensedState &s, int node) {
  return -b.side * s.force[b.normal(node)];
}

double gap(const CondensedBody &b, const CondensedState &s, int node) {
  return b.gap[node] - b.side * s.relative[b.normal(node)];
}

/// Rounding of forces and gaps: far below what contact is asked to keep, far above that of the
/// condensed stiffness.
constexpr double slack = 1e-10;

/// Nodes and, numbered after them, bolts on the wrong side.
std::vector<int> offenders(const CondensedBody &b, const std::vector<BoltLaw> &laws,
                           const CondensedState &s) {
  std::vector<int> all;
  const double least_force = -slack * largest_size(s.force);
  const double least_gap = -slack * std::max(largest_size(s.relative), largest_size(b.gap));
  for (int i = 0; i < b.n_nodes; ++i)
    if (s.set.closed[i] ? normal_force(b, s, i) < least_force : gap(b, s, i) < least_gap)
      all.push_back(i);
  for (int k = 0; k < b.n_bolts(); ++k) {
    if (laws[k].stiffness == 0) continue;
    const double elastic =
        laws[k].preload + laws[k].stiffness * (s.elongation[k] - laws[k].reference);
    const double least = slack * std::max(std::abs(laws[k].preload), std::abs(elastic));
    if (s.set.taut[k] ? s.bolt_force[k] < -least : elastic > least) all.push_back(b.n_nodes + k);
  }
  return all;
}

void change_sides(const CondensedBody &b, int which, ContactSet &set) {
  if (which < b.n_nodes)
    set.closed[which] = !set.closed[which];
  else
    set.taut[which - b.n_nodes] = !set.taut[which - b.n_nodes];
}

}  // namespace

namespace {

/// The closed nodes for the sticking nodes as they are.
void find_closed(const CondensedBody &b, const std::vector<BoltLaw> &laws, const TrySet &trial,
                 CondensedState &s) {
  constexpr int most_solves = 400, patience = 8;
  std::size_t fewest = b.n_nodes + b.n_bolts() + 1;
  int tries_left = patience;
  bool restarted = false;
  for (int solves = 0; solves < most_solves; ++solves) {
    ++s.n_solves;
    if (!trial(s)) {
      if (restarted)
        throw Error(
            "contact: too few nodes of the face touch to hold the body: it lifts off; check the "
            "preload, the load and the supports");
      restarted = true;
      s.set.closed.assign(b.n_nodes, true);
      s.set.taut.assign(b.n_bolts(), true);
      continue;
    }
    const std::vector<int> wrong = offenders(b, laws, s);
    if (wrong.empty()) return;
    if (wrong.size() < fewest) {
      fewest = wrong.size();
      tries_left = patience;
    }
    if (tries_left-- > 0)
      for (const int i : wrong) change_sides(b, i, s.set);
    else
      change_sides(b, wrong.back(), s.set);
  }
  throw Error("contact: no contact set found in " + std::to_string(most_solves) +
              " steps: the state may be unstable; check the preload and the load");
}

CondensedState state_of(const CondensedBody &b, ContactSet set) {
  CondensedState s;
  s.set = std::move(set);
  s.bolt_force.assign(b.n_bolts(), 0.0);
  s.elongation.assign(b.n_bolts(), 0.0);
  return s;
}

}  // namespace

CondensedState linear_response(const CondensedBody &b, const CondensedLoad &load,
                               const std::vector<BoltLaw> &laws, const ContactSet &set) {
  std::vector<BoltLaw> changes;
  for (const BoltLaw &law : laws) changes.push_back({0, law.stiffness, 0});
  CondensedState s = state_of(b, set);
  if (!Trial(b, load, changes).solve(s, 0))
    throw Error("contact: the nodes that touch do not hold the body");
  s.n_solves = 1;
  return s;
}

CondensedState solved_contact(const CondensedBody &b, const CondensedLoad &load,
                              const std::vector<BoltLaw> &laws, ContactSet start) {
  Trial trial(b, load, laws);
  return solved_contact(b, laws, std::move(start),
                        [&](CondensedState &s) { return trial.solve(s); });
}

CondensedState solved_contact(const CondensedBody &b, const std::vector<BoltLaw> &laws,
                              ContactSet start, const TrySet &trial) {
  CondensedState s = state_of(b, std::move(start));
  for (bool settled = false; !settled;) {
    find_closed(b, laws, trial, s);
    settled = true;
    for (int i = 0; i < b.n_nodes; ++i)
      if (s.set.sticks[i] && !s.set.closed[i]) {
        s.set.sticks[i] = false;
        if (b.normal(i) > b.first[i]) settled = false;
      }
  }
  return s;
}

double complementarity_error(const CondensedBody &b, const CondensedState &s) {
  const double force = largest_size(s.force);
  const double length = std::max(largest_size(s.relative), largest_size(b.gap));
  double worst = 0;
  for (int i = 0; i < b.n_nodes; ++i) {
    const double p = force > 0 ? normal_force(b, s, i) / force : 0;
    const double g = length > 0 ? gap(b, s, i) / length : 0;
    worst = std::max({worst, -p, -g, std::abs(p * g)});
  }
  return worst;
}

}  // namespace felloe::detail
