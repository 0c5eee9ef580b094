// SPDX-License-Identifier: GPL-3.0-or-later
// Residual, balance and energy of a solution.
#include "solver/detail/solution_checks.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <sstream>

#include "mesher/error.h"
#include "solver/detail/sparse_reduction.h"

namespace felloe::detail {
namespace {

constexpr double limit = 1e-6;

[[noreturn]] void fail(const LoadCase &load, const std::string &figure, double value) {
  std::ostringstream text;
  text << "load case '" << load.name << "': " << figure << " = " << value << ": must not exceed "
       << limit << "; check the mesh and whether every part is held";
  throw Error(text.str());
}

double work(const std::vector<double> &force, const std::vector<double> &displacement) {
  double sum = 0;
  for (std::size_t i = 0; i < force.size(); ++i) sum += force[i] * displacement[i];
  return sum;
}

double adapter_work(const LoadCase &load, const Solution &solution) {
  const auto &m = solution.adapter_motion;
  return dot(load.adapter.force, {m[0], m[1], m[2]}) + dot(load.adapter.moment, {m[3], m[4], m[5]});
}

}  // namespace

void fill_balance(const Mesh &mesh, const std::vector<Axes> &axes, const ConstraintMap &map,
                  const std::vector<double> &node_stiffness, const LoadCase &load,
                  const SolvedLoad &solved, Solution &solution) {
  const auto at = [&](const std::vector<double> &v, std::size_t n) {
    return Vec3{v[3 * n], v[3 * n + 1], v[3 * n + 2]};
  };
  // Forces that cancel in the sum still set the scale: pressures, ties, self-balanced loads. So do,
  // with the weight of their rounding, the forces inside the body: a mere rigid motion has no
  // other.
  double force_scale = norm(load.adapter.force), moment_scale = norm(load.adapter.moment);
  solution.applied = load.adapter;
  solution.reaction = {scale(-1, load.adapter.force), scale(-1, load.adapter.moment)};
  if (map.n_motions) solution.reaction = {};
  for (std::size_t n = 0; n < mesh.nodes.size(); ++n) {
    const Vec3 load_here = at(solved.load, n);
    const Vec3 difference = subtract(at(solved.internal, n), load_here);
    if (load_here != Vec3{}) {  // most nodes carry nothing and are free
      const Vec3 f = from(axes[n], load_here);
      solution.applied.force = add(solution.applied.force, f);
      solution.applied.moment = add(solution.applied.moment, cross(mesh.nodes[n], f));
    }
    Vec3 held{};
    bool any_held = false;
    for (int i = 0; i < 3; ++i)
      if (map.unknown[3 * n + i] == ConstraintMap::held) {
        held[i] = difference[i];
        any_held = true;
      }
    if (any_held) {
      const Vec3 r = from(axes[n], held);
      solution.reaction.force = add(solution.reaction.force, r);
      solution.reaction.moment = add(solution.reaction.moment, cross(mesh.nodes[n], r));
    }
    const double flow = node_stiffness[n] * norm(at(solved.displacement, n));
    const double size = norm(load_here) + norm(difference) + 1e-9 * flow;
    force_scale += size;
    moment_scale += norm(mesh.nodes[n]) * size;
  }
  // A moment of the adapter is carried by forces and the other way round: neither scale is zero.
  const double force = norm(add(solution.applied.force, solution.reaction.force));
  const double moment = norm(add(solution.applied.moment, solution.reaction.moment));
  solution.balance_error = std::max(force_scale > 0 ? force / force_scale : force,
                                    moment_scale > 0 ? moment / moment_scale : moment);
  solution.strain_energy = 0.5 * work(solved.internal, solved.displacement);
}

void fill_press_fit(const Mesh &mesh, const ConstraintMap &map, const SolvedLoad &solved,
                    Solution &solution) {
  if (map.tie_shift.empty()) return;  // not tied; nodal frames are cylindrical where it is
  for (const PressFitPair &pair : mesh.press_fit)
    solution.press_fit_force.push_back(solved.internal[3L * pair.rim_node] -
                                       solved.load[3L * pair.rim_node]);
}

void check(const ConstraintMap &map, const std::vector<double> &node_stiffness,
           const LoadCase &load, const SolvedLoad &solved, const Solution &solution) {
  // Negated comparisons let no NaN pass.
  if (!(solution.residual <= limit)) fail(load, "relative residual", solution.residual);
  if (!(solution.balance_error <= limit))
    fail(load, "imbalance of forces and moments", solution.balance_error);
  const double energy = solution.strain_energy;
  // A rigid motion strains nothing: K u is then rounding of forces that cancel in every node.
  double scale = 0, cancelled = 0;
  for (std::size_t i = 0; i < solved.internal.size(); ++i) {
    scale += std::abs(solved.internal[i] * solved.displacement[i]);
    cancelled += node_stiffness[i / 3] * solved.displacement[i] * solved.displacement[i];
  }
  if (!(energy >= -1e-12 * scale - 1e-16 * cancelled))
    fail(load, "negative strain energy [N mm]: its size", -energy);
  if (map.any_held_value || !load.held_motion.empty() ||
      (load.interference != 0 && !map.tie_shift.empty()))
    return;
  const double half_work =
      0.5 * (work(solved.load, solved.displacement) + adapter_work(load, solution));
  const double error = std::abs(half_work - energy);
  if (!(error <= limit * std::max(std::abs(energy), 1e-6 * scale)))
    fail(load, "imbalance of work and strain energy", error / std::abs(energy));
}

double reduced_residual(const ConstraintMap &map, const std::vector<double> &f,
                        const std::vector<double> &ku, const LoadCase &load, double size) {
  static thread_local std::vector<double> r;  // a thread has many loads: fresh memory costs more
  reduced(
      map, [&](std::size_t i) { return f[i] - ku[i]; }, r);
  if (map.n_motions)
    for (int i = 0; i < 3; ++i) {
      r[map.n_masters + i] += load.adapter.force[i];
      r[map.n_masters + 3 + i] = (r[map.n_masters + 3 + i] + load.adapter.moment[i]) / size;
    }
  double sum = 0;
  for (const double v : r) sum += v * v;
  return std::sqrt(sum);
}

double reduced_residual(const ConstraintMap &map, const SparseVector &rest, const LoadCase &load,
                        double size) {
  std::vector<std::pair<int, double>> shares;
  reduce(map, rest, [&](int unknown, double force) { shares.push_back({unknown, force}); });
  const int shifts = map.n_masters, turns = shifts + 3;
  if (map.n_motions)
    for (int i = 0; i < 3; ++i) {
      shares.push_back({shifts + i, load.adapter.force[i]});
      shares.push_back({turns + i, load.adapter.moment[i]});
    }
  const SparseVector r = summed(std::move(shares));
  double sum = 0;
  for (std::size_t e = 0; e < r.size(); ++e) {
    const double v = r.at[e] < turns ? r.value[e] : r.value[e] / size;
    sum += v * v;
  }
  return std::sqrt(sum);
}

}  // namespace felloe::detail
