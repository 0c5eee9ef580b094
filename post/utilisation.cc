// SPDX-License-Identifier: GPL-3.0-or-later
#include "post/utilisation.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace felloe {
namespace {

/// Calls visit(node) for nodes of one sector and all that they become by turning.
template <class Visit>
void in_all_sectors(const Mesh &mesh, const std::vector<int> &nodes, const Visit &visit) {
  for (int node : nodes)
    for (int k = 0; k < std::max(1, mesh.symmetry); ++k) {
      visit(node);
      if (!mesh.turned.empty()) node = mesh.turned[node];
    }
}

/// What the place's hot spot was allowed; 0: it has none.
double allowed_at_spot(const std::vector<HotSpot> &spots, const RatedPlace &place) {
  for (const HotSpot &spot : spots)
    if (spot.feature == place.feature && spot.part == place.part) return spot.allowed;
  return 0;
}

Vec3 turned(const Vec3 &x, double angle) {
  const double c = std::cos(angle), s = std::sin(angle);
  return {c * x[0] - s * x[1], s * x[0] + c * x[1], x[2]};
}

}  // namespace

std::vector<double> utilisation_of_nodes(const Mesh &mesh, const std::vector<RatedPlace> &places,
                                         const NodeRatings &ratings, const RatingRules &rules,
                                         const std::vector<HotSpot> &spots,
                                         double required_cycles) {
  const auto allowed = [&](Surface surface, Part part, EdgeSide side) {
    return allowed_stress(curve_for(rules, surface, part, side), rules.survival, required_cycles);
  };
  std::map<Part, double> of_parent;
  for (const auto &[part, material] : rules.materials)
    of_parent[part] = allowed(Surface::parent, part, EdgeSide::burr);
  std::vector<double> used(mesh.nodes.size());
  for (std::size_t n = 0; n < used.size(); ++n)
    used[n] = 100 * ratings.fully_reversed[n] /
              of_parent.at(mesh.node_parts.empty() ? Part::disc : mesh.node_parts[n]);
  for (const RatedPlace &place : places)
    for (const auto &[half, side] : rated_halves(place, mesh, rules)) {
      double limit = allowed(place.surface, place.part, side);
      if (place.surface == Surface::parent && rules.notch_support)
        limit = std::max(limit, allowed_at_spot(spots, place));
      in_all_sectors(mesh, half.nodes,
                     [&](int node) { used[node] = 100 * ratings.fully_reversed[node] / limit; });
    }
  return used;
}

std::vector<ValueLine> utilisation_of_toes(const Mesh &mesh, const std::vector<RatedPlace> &places,
                                           const TurnHistory &turn, const RatingRules &rules,
                                           double required_cycles) {
  std::vector<ValueLine> lines;
  for (const RatedPlace &place : places) {
    if (place.toe_points.empty()) continue;
    const double allowed =
        allowed_stress(curve_for(rules, place.surface, place.part, EdgeSide::burr, place.thickness),
                       rules.survival, required_cycles);
    const std::vector<double> stresses = toe_stresses(place, turn, rules);
    std::vector<std::pair<double, std::size_t>> by_angle;
    for (std::size_t i = 0; i < stresses.size(); ++i) {
      const Vec3 &x = place.toe_points[i].toe;
      by_angle.emplace_back(std::atan2(x[1], x[0]), i);
    }
    std::sort(by_angle.begin(), by_angle.end());
    ValueLine line;
    const int sectors = std::max(1, mesh.symmetry);
    for (int k = 0; k < sectors; ++k)
      for (const auto &[angle, i] : by_angle) {
        line.points.push_back(turned(place.toe_points[i].toe, 2 * pi * k / sectors));
        line.values.push_back(100 * stresses[i] / allowed);
      }
    line.points.push_back(line.points.front());
    line.values.push_back(line.values.front());
    lines.push_back(std::move(line));
  }
  return lines;
}

}  // namespace felloe
