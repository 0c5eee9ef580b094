// SPDX-License-Identifier: GPL-3.0-or-later
// Who follows whom: supports, adapter, ties, in this order.
#include "solver/detail/constraint_map.h"

#include <cmath>

#include "mesher/error.h"

namespace felloe::detail {
namespace {

std::vector<int> nodes_of_place(const Mesh &mesh, const std::string &place) {
  if (mesh.surfaces.count(place)) return surface_nodes(mesh, place);
  if (mesh.lines.count(place)) return line(mesh, place);
  std::string names;
  for (const auto &s : mesh.surfaces) names += (names.empty() ? "" : ", ") + s.first;
  for (const auto &l : mesh.lines) names += (names.empty() ? "" : ", ") + l.first;
  throw Error("supports: '" + place + "': no such surface or line: the mesh has: " + names);
}

void hold(const Mesh &mesh, const std::vector<Axes> &axes, const Support &support,
          ConstraintMap &map) {
  for (const int node : nodes_of_place(mesh, support.place)) {
    const Vec3 wanted = support.value ? along(axes[node], support.value(mesh.nodes[node])) : Vec3{};
    for (int i = 0; i < 3; ++i) {
      if (!support.held[i]) continue;
      const long u = 3L * node + i;
      double &value = map.held_value[u];
      if (map.unknown[u] == ConstraintMap::held &&
          std::abs(value - wanted[i]) > 1e-9 * (std::abs(value) + std::abs(wanted[i])))
        throw Error("supports: '" + support.place + "': node " + std::to_string(node) +
                    " is held at " + std::to_string(wanted[i]) + " mm here and at " +
                    std::to_string(value) + " mm by another support; make them agree");
      map.unknown[u] = ConstraintMap::held;
      value = wanted[i];
      if (value != 0) map.any_held_value = true;
    }
  }
}

/// u_i = e_i . (t + w x x) = e_i . t + (x x e_i) . w
void put_on_adapter(const Mesh &mesh, const std::vector<Axes> &axes, const Supports &supports,
                    ConstraintMap &map) {
  for (const int node : surface_nodes(mesh, supports.adapter_surface))
    for (int i = 0; i < 3; ++i) {
      const long u = 3L * node + i;
      if (map.unknown[u] == ConstraintMap::held)
        throw Error("supports: adapter '" + supports.adapter_surface + "': node " +
                    std::to_string(node) +
                    " is also held by a support: it cannot follow both; move the support away");
      if (supports.adapter_held) {
        map.unknown[u] = ConstraintMap::held;
        continue;
      }
      const Vec3 &e = axes[node][i];
      const Vec3 arm = cross(mesh.nodes[node], e);
      map.unknown[u] = ConstraintMap::on_adapter;
      map.adapter_components.push_back(u);
      map.adapter_rows.push_back({e[0], e[1], e[2], arm[0], arm[1], arm[2]});
    }
  if (!supports.adapter_held) map.n_motions = 6;
}

constexpr int is_free = 0;

/// Of each tied component the one that it follows: u_r(disc) = u_r(rim) - interference, or the
/// same the other way round where the disc node is already taken.
std::vector<std::pair<long, long>> tie(const Mesh &mesh, NodalFrame frame,
                                       const std::vector<int> &lifted, ConstraintMap &map) {
  std::vector<std::pair<long, long>> followers;
  if (mesh.press_fit.empty()) return followers;
  if (frame != NodalFrame::cylindrical)
    throw Error("supports: press fit: the ties are radial: they need the cylindrical nodal frame");
  std::vector<bool> leads(map.unknown.size(), false), follows(map.unknown.size(), false);
  std::vector<bool> is_lifted(mesh.nodes.size(), false);
  for (const int n : lifted) is_lifted[n] = true;
  for (const PressFitPair &pair : mesh.press_fit) {
    if (is_lifted[pair.disc_node]) continue;
    const long disc = 3L * pair.disc_node, rim = 3L * pair.rim_node;
    const auto can_follow = [&](long u) {
      return map.unknown[u] == is_free && !leads[u] && !follows[u];
    };
    const bool disc_follows = can_follow(disc) && !follows[rim];
    if (!disc_follows && !(can_follow(rim) && !follows[disc]))
      throw Error("supports: press fit: nodes " + std::to_string(pair.disc_node) + " and " +
                  std::to_string(pair.rim_node) +
                  " are both held or tied twice: the tie cannot be kept; free one of them");
    const long follower = disc_follows ? disc : rim, leader = disc_follows ? rim : disc;
    follows[follower] = leads[leader] = true;
    followers.emplace_back(follower, leader);
    map.tie_shift.emplace_back(follower, disc_follows ? -1.0 : 1.0);
  }
  return followers;
}

/// Numbers the masters; followers take over their leader's row.
void number(const std::vector<std::pair<long, long>> &followers, ConstraintMap &map) {
  constexpr int follower = -3;
  for (const auto &[u, leader] : followers) map.unknown[u] = follower;
  for (std::size_t u = 0; u < map.unknown.size(); ++u)
    if (map.unknown[u] == is_free) {
      map.unknown[u] = map.n_masters++;
      map.group.push_back(static_cast<int>(u / 3));
    }
  for (const auto &[u, leader] : followers) {
    map.unknown[u] = map.unknown[leader];
    map.held_value[u] = map.held_value[leader];
    if (map.unknown[leader] != ConstraintMap::on_adapter) continue;
    for (std::size_t k = 0; k < map.adapter_components.size(); ++k)
      if (map.adapter_components[k] == leader) {
        map.adapter_components.push_back(u);
        map.adapter_rows.push_back(std::array<double, 6>(map.adapter_rows[k]));
        break;
      }
  }
}

/// Groups numbered without gaps, the motions as the last one.
void close_groups(ConstraintMap &map) {
  int last_node = -1, count = -1;
  for (int &g : map.group) {
    if (g != last_node) ++count;
    last_node = g;
    g = count;
  }
  map.group.insert(map.group.end(), map.n_motions, count + 1);
}

}  // namespace

ConstraintMap constraint_map(const Mesh &mesh, NodalFrame frame, const std::vector<Axes> &axes,
                             const Supports &supports, const std::vector<bool> &joined) {
  ConstraintMap map;
  map.unknown.assign(3 * mesh.nodes.size(), is_free);
  map.held_value.assign(map.unknown.size(), 0.0);
  for (const Support &support : supports.held) hold(mesh, axes, support, map);
  for (std::size_t n = 0; n < joined.size(); ++n)
    if (!joined[n])
      for (int i = 0; i < 3; ++i) map.unknown[3 * n + i] = ConstraintMap::held;
  if (!supports.adapter_surface.empty()) put_on_adapter(mesh, axes, supports, map);
  std::vector<std::pair<long, long>> followers;
  if (supports.press_fit_tied) followers = tie(mesh, frame, supports.lifted, map);
  number(followers, map);
  close_groups(map);
  return map;
}

std::vector<double> offsets(const ConstraintMap &map, double interference) {
  std::vector<double> g = map.held_value;
  for (const auto &[u, factor] : map.tie_shift) g[u] += factor * interference;
  return g;
}

void expand(const ConstraintMap &map, const double *q, std::vector<double> &u) {
  u.resize(map.unknown.size());
  for (std::size_t i = 0; i < u.size(); ++i) u[i] = map.unknown[i] >= 0 ? q[map.unknown[i]] : 0;
  for (std::size_t k = 0; k < map.adapter_components.size(); ++k)
    for (int m = 0; m < 6; ++m)
      u[map.adapter_components[k]] += map.adapter_rows[k][m] * q[map.n_masters + m];
}

std::vector<double> reduced(const ConstraintMap &map, const std::vector<double> &f) {
  std::vector<double> r;
  reduced(
      map, [&](std::size_t i) { return f[i]; }, r);
  return r;
}

}  // namespace felloe::detail
