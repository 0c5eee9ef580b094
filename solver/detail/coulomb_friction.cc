// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/detail/coulomb_friction.h"

#include <algorithm>
#include <cmath>

namespace felloe::detail {

void even_out_across(const CondensedBody &b, CoulombFriction &f) {
  for (int i = 0; i < b.n_nodes; ++i) {
    const int c = b.first[i];
    if (c < b.normal(i))
      f.stiffness[c] = f.stiffness[c + 1] = 0.5 * (f.stiffness[c] + f.stiffness[c + 1]);
  }
}

ProjectedForces projected(const CondensedBody &b, const CondensedState &s, const CoulombFriction &f,
                          int node) {
  ProjectedForces out;
  const int normal = b.normal(node), first = b.first[node];
  const double gap = b.gap[node] - b.side * s.relative[normal];
  const double trial = -b.side * s.force[normal] - f.stiffness[normal] * gap;
  out.closed = trial > 0;
  out.pressing = std::max(0.0, trial);
  if (!s.set.sticks[node] || first == normal) return out;
  out.bound = f.coefficient * out.pressing;
  for (int x = 0; x < 2; ++x) {
    const int c = first + x;
    out.trial_across[x] = s.force[c] - f.stiffness[c] * (s.relative[c] - f.reference[c]);
  }
  const double size = std::hypot(out.trial_across[0], out.trial_across[1]);
  out.slips = out.closed && size > out.bound;
  const double cut = size > out.bound ? out.bound / size : 1;
  for (int x = 0; x < 2; ++x) out.across[x] = cut * out.trial_across[x];
  return out;
}

double friction_error(const CondensedBody &b, const CondensedState &s, const CoulombFriction &f) {
  double worst = 0, largest = 0;
  for (const double force : s.force) largest = std::max(largest, std::abs(force));
  for (int i = 0; i < b.n_nodes; ++i) {
    const ProjectedForces wanted = projected(b, s, f, i);
    const int normal = b.normal(i), first = b.first[i];
    worst = std::max(worst, std::abs(-b.side * s.force[normal] - wanted.pressing));
    if (s.set.sticks[i] && first < normal)
      worst = std::max(worst, std::hypot(s.force[first] - wanted.across[0],
                                         s.force[first + 1] - wanted.across[1]));
  }
  return largest > 0 ? worst / largest : 0;
}

double balance_error(const CondensedBody &b, const CondensedLoad &load, const CondensedState &s) {
  double worst = 0;
  for (int m = 0; m < 6; ++m) {
    if (!b.plane_free[m]) continue;
    double sum = -load.on_plane[m], size = std::abs(sum);
    for (int c = 0; c < b.n(); ++c) {
      const Six &t = b.plane[c];
      sum += t[m] * s.force[c];
      size += std::abs(s.force[c]) * (m < 3 ? 1 : std::hypot(t[3], t[4], t[5]));
    }
    for (int k = 0; k < b.n_bolts(); ++k) sum += b.bolt_pull[k][m] * s.bolt_force[k];
    if (size > 0) worst = std::max(worst, std::abs(sum) / size);
  }
  return worst;
}

}  // namespace felloe::detail
