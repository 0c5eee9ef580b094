// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/detail/load_sides.h"

#include <algorithm>

#include "solver/detail/parallel.h"
#include "solver/detail/solution_checks.h"

namespace felloe::detail {
namespace {

/// A residual above this asks for a step of iterative refinement. Thin bodies end near 1e-9: there
/// the product K u itself cannot be rounded any better.
constexpr double refine_above = 1e-8;

}  // namespace

LoadSides sides_at_rest(const Mesh &mesh, const std::vector<Axes> &axes, const ConstraintMap &map,
                        const Body &body, const LoadCase &load) {
  LoadSides s;
  static thread_local std::vector<Vec3> forces;  // a thread has many loads
  nodal_forces(mesh, load, forces);
  s.load.resize(3 * forces.size());
  for (std::size_t n = 0; n < forces.size(); ++n) {
    const Vec3 components = along(axes[n], forces[n]);
    std::copy(components.begin(), components.end(), s.load.begin() + 3 * n);
  }
  if (!map.any_held_value && load.held_motion.empty() &&
      (load.interference == 0 || map.tie_shift.empty()))
    return s;
  s.displacement = offsets(map, load.interference);
  for (const auto &[node, motion] : load.held_motion) {
    const Vec3 components = along(axes[node], motion);
    for (int i = 0; i < 3; ++i)
      if (map.unknown[3L * node + i] == ConstraintMap::held)
        s.displacement[3L * node + i] += components[i];
  }
  s.internal = body.multiply(s.displacement);
  return s;
}

namespace {

std::vector<double> difference(std::vector<double> a, const std::vector<double> &b) {
  for (std::size_t i = 0; i < a.size(); ++i) a[i] -= b[i];
  return a;
}

void move_by(NodalResponse &response, LoadSides &s) {
  if (s.displacement.empty())
    s.displacement = std::move(response.displacement);
  else
    for (std::size_t i = 0; i < s.displacement.size(); ++i)
      s.displacement[i] += response.displacement[i];
  for (int m = 0; m < 6; ++m) s.motion[m] += response.motion[m];
}

}  // namespace

void solve_sides(const FactoredBody &factor, const ConstraintMap &map, const Body &body,
                 const std::vector<LoadCase> &loads, double extent, std::vector<LoadSides> &all) {
  const std::size_t n_loads = loads.size();
  std::vector<double> size(n_loads);
  for (int sweep = 0; sweep < 3; ++sweep) {
    std::vector<NodalLoad> rest(n_loads);
    parallel_for(0, static_cast<int>(n_loads), [&](int l) {
      LoadSides &s = all[l];
      const bool at_rest = s.internal.empty();
      if (at_rest) rest[l].force = std::move(s.load);  // to be given back
      const double left = at_rest ? reduced_residual(map, rest[l].force, loads[l], extent)
                                  : reduced_residual(map, s.load, s.internal, loads[l], extent);
      if (sweep == 0) size[l] = left;
      s.residual = size[l] > 0 ? left / size[l] : left;
      const auto &[force, moment] = loads[l].adapter;
      rest[l].on_adapter = {force[0], force[1], force[2], moment[0], moment[1], moment[2]};
    });
    double worst = 0;
    for (const LoadSides &s : all) worst = std::max(worst, s.residual);
    if (sweep == 2 || (sweep == 1 && worst <= refine_above)) return;
    parallel_for(0, static_cast<int>(n_loads), [&](int l) {
      if (!all[l].internal.empty()) rest[l].force = difference(all[l].load, all[l].internal);
    });
    auto responses = factor.solve(rest);
    std::vector<const std::vector<double> *> displacements;
    for (std::size_t l = 0; l < n_loads; ++l) {
      if (all[l].internal.empty()) all[l].load = std::move(rest[l].force);
      move_by(responses[l], all[l]);
      displacements.push_back(&all[l].displacement);
    }
    auto internal = body.multiply_all(displacements);
    for (std::size_t l = 0; l < n_loads; ++l) all[l].internal = std::move(internal[l]);
  }
}

}  // namespace felloe::detail
