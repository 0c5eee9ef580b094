// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/detail/contact_tableau.h"

#include <algorithm>
#include <cmath>

#include "mesher/error.h"
#include "solver/detail/blas.h"

namespace felloe::detail {
namespace {

/// a: m x k, b: k x n.
std::vector<double> product(const std::vector<double> &a, const std::vector<double> &b, int m,
                            int k, int n) {
  std::vector<double> c(static_cast<std::size_t>(m) * n, 0.0);
  const double one = 1, zero = 0;
  if (m > 0 && k > 0 && n > 0)
    dgemm_("N", "N", &m, &n, &k, &one, a.data(), &m, b.data(), &k, &zero, c.data(), &m);
  return c;
}

/// Solutions in place of the right-hand sides; false when singular. Unknowns are motions and
/// forces: times the scales of the columns all are roots of energies; rows get the size 1, so
/// pivots tell.
bool solve_scaled(int n, int n_rhs, const std::vector<double> &scale, std::vector<double> &matrix,
                  std::vector<double> &x) {
  if (n == 0) return true;
  std::vector<double> size(n, 0.0);
  for (int j = 0; j < n; ++j)
    for (int i = 0; i < n; ++i) {
      double &entry = matrix[static_cast<std::size_t>(j) * n + i];
      entry *= scale[j];
      size[i] = std::max(size[i], std::abs(entry));
    }
  for (const double s : size)
    if (!(s > 0)) return false;
  for (std::size_t e = 0; e < matrix.size(); ++e) matrix[e] /= size[e % n];
  for (std::size_t e = 0; e < x.size(); ++e) x[e] /= size[e % n];
  std::vector<int> pivots(n);
  int info = 0;
  dgesv_(&n, &n_rhs, matrix.data(), &n, pivots.data(), x.data(), &n, &info);
  if (info != 0) return false;
  double smallest = 1e300, largest = 0;
  for (int i = 0; i < n; ++i) {
    const double pivot = std::abs(matrix[static_cast<std::size_t>(i) * n + i]);
    smallest = std::min(smallest, pivot);
    largest = std::max(largest, pivot);
  }
  for (std::size_t e = 0; e < x.size(); ++e) x[e] *= scale[e % n];
  return smallest > 1e-11 * largest;
}

}  // namespace

/// Motions u and forces R of all components: a constant column, then one for each of the rest.
struct ContactTableau::Response {
  std::vector<double> motion, force;
};

std::vector<bool> ContactTableau::held_components(const ContactSet &set) const {
  std::vector<bool> held(b_.n());
  for (int i = 0; i < b_.n_nodes; ++i) {
    for (int c = b_.first[i]; c < b_.normal(i); ++c) held[c] = set.sticks[i];
    held[b_.normal(i)] = set.closed[i];
  }
  return held;
}

std::vector<double> ContactTableau::gaps() const {
  std::vector<double> d(n_, 0.0);
  for (int i = 0; i < b_.n_nodes; ++i) d[b_.normal(i)] = b_.side * b_.gap[i];
  return d;
}

ContactTableau::ContactTableau(const CondensedBody &body, const ContactSet &base)
    : b_(body), n_(body.n()), n_rest_(6 + body.n_bolts()), held_(held_components(base)) {
  for (int i = 0; i < b_.n_nodes; ++i)
    for (int c = b_.first[i]; c < b_.first[i + 1]; ++c) node_.push_back(i);
  std::vector<int> order;  // open, then held
  for (int c = 0; c < n_; ++c)
    if (!held_[c]) order.push_back(c);
  const int n_open = static_cast<int>(order.size()), n_held = n_ - n_open;
  for (int c = 0; c < n_; ++c)
    if (held_[c]) order.push_back(c);
  std::vector<double> k(static_cast<std::size_t>(n_) * n_);
  for (int j = 0; j < n_; ++j)
    for (int i = 0; i < n_; ++i)
      k[static_cast<std::size_t>(j) * n_ + i] =
          b_.stiffness[static_cast<std::size_t>(order[j]) * n_ + order[i]];
  const std::size_t corner = static_cast<std::size_t>(n_open) * n_;  // first held column
  if (n_open > 0) {
    int info = 0;
    const double one = 1, minus = -1;
    dpotrf_("L", &n_open, k.data(), &n_, &info);
    if (info != 0) throw Error("contact: the nodes that touch do not hold the body");
    double *upper = k.data() + corner;
    dtrsm_("L", "L", "N", "N", &n_open, &n_held, &one, k.data(), &n_, upper, &n_);
    dsyrk_("L", "T", &n_held, &n_open, &minus, upper, &n_, &one, upper + n_open, &n_);
    dtrsm_("L", "L", "T", "N", &n_open, &n_held, &one, k.data(), &n_, upper, &n_);
    dpotri_("L", &n_open, k.data(), &n_, &info);
    if (info != 0) throw Error("contact: the nodes that touch do not hold the body");
  }
  table_.resize(k.size());
  for (int j = 0; j < n_; ++j)
    for (int i = j; i < n_; ++i) {
      const bool mixed = i >= n_open && j < n_open;
      const double v =
          mixed ? k[static_cast<std::size_t>(i) * n_ + j] : k[static_cast<std::size_t>(j) * n_ + i];
      table_[static_cast<std::size_t>(order[j]) * n_ + order[i]] = v;
      table_[static_cast<std::size_t>(order[i]) * n_ + order[j]] = mixed ? -v : v;
    }
  rest_.assign(static_cast<std::size_t>(n_) * n_rest_, 0.0);
  for (int c = 0; c < n_; ++c)
    for (int l = 0; l < n_rest_; ++l)
      if (held_[c] == (l < 6))
        rest_[static_cast<std::size_t>(l) * n_ + c] =
            held_[c] ? b_.plane[c][l] : -b_.bolt_reaction[l - 6][c];
  to_rest_ = product(table_, rest_, n_, n_, n_rest_);
}

double ContactTableau::input(const Question &q, int c, int l) const {
  if (l > 0) return rest_[static_cast<std::size_t>(l - 1) * n_ + c];
  return held_[c] ? q.held_motion[c] : -q.load.reaction[c];
}

double ContactTableau::output(const Question &q, int c, int l) const {
  return l > 0 ? to_rest_[static_cast<std::size_t>(l - 1) * n_ + c] : q.to_load[c];
}

ContactTableau::Question ContactTableau::question(const CondensedLoad &load,
                                                  const std::vector<BoltLaw> &laws,
                                                  std::vector<double> held_motion) const {
  Question q{load, laws, std::move(held_motion), {}};
  std::vector<double> in(n_);
  for (int c = 0; c < n_; ++c) in[c] = input(q, c, 0);
  q.to_load = product(table_, in, n_, n_, 1);
  return q;
}

/// What is no longer held has R = 0, what is newly held has the given d.
std::vector<ContactTableau::Condition> ContactTableau::sides(const Question &q,
                                                             const ContactSet &set) const {
  std::vector<Condition> all;
  const std::vector<bool> now = held_components(set);
  for (int c = 0; c < n_; ++c) {
    if (now[c] == held_[c]) continue;
    Condition one;
    one.component = c;
    (now[c] ? one.motion : one.force)[c - b_.first[node_[c]]] = 1;
    if (now[c]) one.value = q.held_motion[c];
    all.push_back(one);
  }
  return all;
}

/// Changes of inputs that meet the conditions: one column for the constant and each of the rest.
std::vector<double> ContactTableau::changes(const Question &question,
                                            const std::vector<Condition> &conditions,
                                            bool &ok) const {
  const int q = static_cast<int>(conditions.size()), m = 1 + n_rest_;
  std::vector<double> matrix(static_cast<std::size_t>(q) * q),
      change(static_cast<std::size_t>(q) * m), scale;
  for (int j = 0; j < q; ++j) {
    const int to = conditions[j].component;
    const double *column = table_.data() + static_cast<std::size_t>(to) * n_;
    if (!(column[to] > 0)) ok = false;
    scale.push_back(1 / std::sqrt(column[to]));
    for (int i = 0; i < q; ++i) {
      const Condition &row = conditions[i];
      const int first = b_.first[node_[row.component]], end = b_.first[node_[row.component] + 1];
      double sum = 0;
      for (int e = first; e < end; ++e) {
        const double by_output = (held_[e] ? row.force : row.motion)[e - first];
        const double by_input = (held_[e] ? row.motion : row.force)[e - first];
        sum += by_output * column[e] + (e == to ? by_input : 0);
      }
      matrix[static_cast<std::size_t>(j) * q + i] = sum;
    }
  }
  for (int l = 0; l < m; ++l)
    for (int i = 0; i < q; ++i) {
      const Condition &row = conditions[i];
      const int first = b_.first[node_[row.component]], end = b_.first[node_[row.component] + 1];
      double wanted = l == 0 ? row.value : 0;
      for (int e = first; e < end; ++e) {
        double motion = input(question, e, l), force = output(question, e, l);
        if (!held_[e]) std::swap(motion, force);
        if (l == 0) force += question.load.reaction[e];
        if (l > 6) force += b_.bolt_reaction[l - 7][e];
        if (l > 0 && l < 7) motion -= b_.plane[e][l - 1];
        wanted -= row.force[e - first] * force + row.motion[e - first] * motion;
      }
      change[static_cast<std::size_t>(l) * q + i] = wanted;
    }
  ok = ok && solve_scaled(q, m, scale, matrix, change);
  return change;
}

ContactTableau::Response ContactTableau::response(const Question &question,
                                                  const std::vector<Condition> &conditions,
                                                  const std::vector<double> &change) const {
  const int q = static_cast<int>(conditions.size()), m = 1 + n_rest_;
  std::vector<double> columns;
  columns.reserve(static_cast<std::size_t>(q) * n_);
  std::vector<int> place(n_, -1);
  for (int i = 0; i < q; ++i) {
    const int c = conditions[i].component;
    const double *column = table_.data() + static_cast<std::size_t>(c) * n_;
    columns.insert(columns.end(), column, column + n_);
    place[c] = i;
  }
  std::vector<double> out = product(columns, change, n_, q, m);
  Response r{std::vector<double>(out.size()), std::vector<double>(out.size())};
  for (int l = 0; l < m; ++l)
    for (int c = 0; c < n_; ++c) {
      const std::size_t at = static_cast<std::size_t>(l) * n_ + c;
      out[at] += output(question, c, l);
      double in = input(question, c, l);
      if (place[c] >= 0) in += change[static_cast<std::size_t>(l) * q + place[c]];
      r.motion[at] = held_[c] ? in : out[at];
      r.force[at] = held_[c] ? out[at] : in;
      if (l == 0) r.force[at] += question.load.reaction[c];
      if (l > 6) r.force[at] += b_.bolt_reaction[l - 7][c];
    }
  return r;
}

bool ContactTableau::solve(const Question &question, const std::vector<Condition> &conditions,
                           CondensedState &s) const {
  bool ok = true;
  const std::vector<double> change = changes(question, conditions, ok);
  if (!ok) return false;
  const CondensedLoad &load = question.load;
  const std::vector<BoltLaw> &laws = question.laws;
  const Response r = response(question, conditions, change);
  const auto dot_column = [&](const std::vector<double> &of, int l, const auto &weight) {
    const double *column = of.data() + static_cast<std::size_t>(l) * n_;
    double sum = 0;
    for (int c = 0; c < n_; ++c) sum += column[c] * weight(c);
    return sum;
  };
  std::vector<std::vector<double>> rows(n_rest_, std::vector<double>(n_rest_ + 1, 0.0));
  for (int l = 0; l <= n_rest_; ++l) {
    const int to = l == 0 ? n_rest_ : l - 1;
    const double sign = l == 0 ? -1 : 1;
    for (int k = 0; k < 6; ++k)
      rows[k][to] = sign * dot_column(r.force, l, [&](int c) { return b_.plane[c][k]; });
    for (int k = 0; k < b_.n_bolts(); ++k)
      rows[6 + k][to] =
          sign * dot_column(r.motion, l, [&](int c) { return b_.bolt_reaction[k][c]; });
  }
  for (int k = 0; k < 6; ++k) {
    rows[k][n_rest_] += load.on_plane[k];
    for (int l = 0; l < b_.n_bolts(); ++l) {
      rows[k][6 + l] += b_.bolt_pull[l][k];
      rows[6 + l][k] += b_.bolt_pull[l][k];
    }
  }
  for (int k = 0; k < b_.n_bolts(); ++k) {
    for (int l = 0; l < b_.n_bolts(); ++l) rows[6 + k][6 + l] -= b_.bolt_give[k][l];
    rows[6 + k][n_rest_] += load.travel[k];
  }
  const std::vector<std::vector<double>> elongation(rows.begin() + 6, rows.end());
  for (int k = 0; k < b_.n_bolts(); ++k)
    if (laws[k].stiffness > 0) {
      rows[6 + k][6 + k] -= 1 / laws[k].stiffness;
      rows[6 + k][n_rest_] += laws[k].reference - laws[k].preload / laws[k].stiffness;
    }
  fix_rest(b_, laws, s.set, rows);
  if (!eliminate(rows)) return false;
  for (int l = 0; l < 6; ++l) s.motion[l] = rows[l][n_rest_];
  for (int k = 0; k < b_.n_bolts(); ++k) {
    s.bolt_force[k] = rows[6 + k][n_rest_];
    s.elongation[k] = -elongation[k][n_rest_];
    for (int l = 0; l < n_rest_; ++l) s.elongation[k] += elongation[k][l] * rows[l][n_rest_];
  }
  s.relative.assign(r.motion.begin(), r.motion.begin() + n_);
  s.force.assign(r.force.begin(), r.force.begin() + n_);
  for (int l = 0; l < n_rest_; ++l)
    for (int c = 0; c < n_; ++c) {
      const std::size_t at = static_cast<std::size_t>(l + 1) * n_ + c;
      s.relative[c] += (r.motion[at] - (l < 6 ? b_.plane[c][l] : 0)) * rows[l][n_rest_];
      s.force[c] += r.force[at] * rows[l][n_rest_];
    }
  return true;
}

CondensedState ContactTableau::solved(const CondensedLoad &load, const std::vector<BoltLaw> &laws,
                                      ContactSet start) const {
  const Question q = question(load, laws, gaps());
  return solved_contact(b_, laws, std::move(start), [&](CondensedState &s) {
    if (!solve(q, sides(q, s.set), s)) return false;
    const std::vector<bool> held = held_components(s.set);
    for (int c = 0; c < n_; ++c)  // up to rounding they are
      (held[c] ? s.relative : s.force)[c] = held[c] ? q.held_motion[c] : 0;
    return true;
  });
}

}  // namespace felloe::detail
