// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/press_fit_contact.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "mesher/error.h"

namespace felloe {
namespace {

/// Of the largest force, and of the interference: below is rounding.
constexpr double rounding = 1e-9;
constexpr int most_steps = 60;
/// Solves without fewer offenders than ever before until pairs change sides one at a time.
constexpr int patience = 5;

/// For each pair the first pair of those that turns by a sector lead to.
std::vector<int> orbits(const Mesh &mesh) {
  std::vector<int> pair_of(mesh.nodes.size(), -1), first(mesh.press_fit.size(), -1);
  for (std::size_t k = 0; k < mesh.press_fit.size(); ++k)
    pair_of[mesh.press_fit[k].disc_node] = static_cast<int>(k);
  for (int k = 0; k < static_cast<int>(first.size()); ++k)
    for (int at = k; first[at] < 0; at = pair_of[mesh.turned[mesh.press_fit[at].disc_node]]) {
      first[at] = k;
      if (mesh.turned.empty()) break;
    }
  return first;
}

double radial(const Mesh &mesh, const Solution &s, int node) {
  const Vec3 &x = mesh.nodes[node], &u = s.displacement[node];
  return (x[0] * u[0] + x[1] * u[1]) / std::hypot(x[0], x[1]);
}

/// Distance of the parts at a pair [mm]; negative: they overlap.
double gap(const Mesh &mesh, const Solution &s, const PressFitPair &pair, double interference) {
  return radial(mesh, s, pair.rim_node) - radial(mesh, s, pair.disc_node) - interference;
}

}  // namespace

PressedTogether pressed_together(const AnyModel &model, const Mesh &mesh, Supports supports,
                                 const LoadCase &load) {
  const std::size_t n = mesh.press_fit.size();
  const std::vector<int> first = orbits(mesh);
  std::vector<bool> apart(n, false);  // of the first pair of each orbit
  PressedTogether result;
  int fewest = std::numeric_limits<int>::max(), waited = 0;
  while (result.steps < most_steps) {
    supports.lifted.clear();
    for (std::size_t k = 0; k < n; ++k)
      if (apart[first[k]]) supports.lifted.push_back(mesh.press_fit[k].disc_node);
    if (supports.lifted.size() == n)
      throw Error("load case '" + load.name +
                  "': press fit: no pair of disc and rim remains in contact; check the "
                  "interference and the flange of the disc");
    result.solution = std::move(model.solve(supports, {load}).front());
    ++result.steps;
    const std::vector<double> &force = result.solution.press_fit_force;
    const double largest = *std::max_element(force.begin(), force.end());
    std::vector<int> offenders;
    result.complementarity_error = 0;
    for (std::size_t k = 0; k < n; ++k) {
      if (first[k] != static_cast<int>(k)) continue;
      const double offence =
          apart[k] ? -gap(mesh, result.solution, mesh.press_fit[k], load.interference) /
                         load.interference
                   : -force[k] / largest;
      result.complementarity_error = std::max(result.complementarity_error, offence);
      if (offence > rounding) offenders.push_back(static_cast<int>(k));
    }
    if (offenders.empty()) {
      result.lifted = supports.lifted;
      return result;
    }
    const int count = static_cast<int>(offenders.size());
    waited = count < fewest ? 0 : waited + 1;
    fewest = std::min(fewest, count);
    if (waited >= patience) offenders.erase(offenders.begin(), offenders.end() - 1);
    for (const int k : offenders) apart[k] = !apart[k];
  }
  throw Error("load case '" + load.name + "': press fit: no state of contact found in " +
              std::to_string(most_steps) + " steps; check the mesh of the flange");
}

}  // namespace felloe
