// SPDX-License-Identifier: GPL-3.0-or-later
#include "post/utilisation.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "post/rated_nodes.h"

namespace felloe {
namespace {

/// What the place's hot spot was allowed; 0: it has none.
double allowed_at_spot(const std::vector<HotSpot> &spots, const RatedPlace &place) {
  for (const HotSpot &spot : spots)
    if (spot.feature == place.feature && spot.part == place.part) return spot.allowed;
  return 0;
}

/// Nodes of one sector with the curve that they are rated by.
struct RatedNodes {
  std::vector<int> nodes;
  SnCurve curve;
};

/// Of all places with another curve than parent metal, weld toes left out: edges, and where the
/// gradient's support counts.
std::vector<RatedNodes> curves_of_places(const Mesh &mesh, const std::vector<RatedPlace> &places,
                                         const RatingRules &rules,
                                         const std::vector<HotSpot> &spots,
                                         double required_cycles) {
  std::vector<RatedNodes> all;
  for (const RatedPlace &place : places) {
    if (place.surface == Surface::weld_toe) continue;
    if (place.surface == Surface::parent && !rules.notch_support) continue;
    for (auto &[half, side] : rated_halves(place, mesh, rules)) {
      RatedNodes rated{half.nodes, curve_for(rules, place.surface, place.part, side)};
      if (place.surface == Surface::parent && rules.notch_support)
        rated.curve.knee_amplitude *=
            std::max(1.0, allowed_at_spot(spots, place) /
                              allowed_stress(rated.curve, rules.survival, required_cycles));
      all.push_back(std::move(rated));
    }
  }
  return all;
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
  std::map<Part, double> of_parent;
  for (const auto &[part, material] : rules.materials)
    of_parent[part] =
        allowed_stress(curve_for(rules, Surface::parent, part), rules.survival, required_cycles);
  std::vector<double> used(mesh.nodes.size());
  for (std::size_t n = 0; n < used.size(); ++n)
    used[n] = 100 * ratings.fully_reversed[n] /
              of_parent.at(mesh.node_parts.empty() ? Part::disc : mesh.node_parts[n]);
  for (const RatedNodes &rated : curves_of_places(mesh, places, rules, spots, required_cycles)) {
    const double limit = allowed_stress(rated.curve, rules.survival, required_cycles);
    in_all_sectors(mesh, rated.nodes,
                   [&](int node) { used[node] = 100 * ratings.fully_reversed[node] / limit; });
  }
  return used;
}

void rate_by_places(const Mesh &mesh, const std::vector<RatedPlace> &places,
                    const RatingRules &rules, const std::vector<HotSpot> &spots,
                    double required_cycles, NodeRatings &ratings) {
  for (const RatedNodes &rated : curves_of_places(mesh, places, rules, spots, required_cycles))
    in_all_sectors(mesh, rated.nodes, [&](int node) {
      const double stress =
          (rated.curve.stress_range ? 2 : 1) * std::max(ratings.fully_reversed[node], 1e-6);
      ratings.life[node] = cycles_to_failure(rated.curve, stress, rules.survival);
    });
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
