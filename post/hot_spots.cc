// SPDX-License-Identifier: GPL-3.0-or-later
#include "post/hot_spots.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <thread>

#include "post/weld_extrapolation.h"

namespace felloe {
namespace {

/// Calls f(i) for i in [0, n) on all cores; f must not throw.
void parallel_for(std::size_t n, const std::function<void(std::size_t)> &f) {
  const std::size_t lanes = std::max(1u, std::thread::hardware_concurrency());
  std::vector<std::thread> threads;
  for (std::size_t lane = 0; lane < lanes; ++lane)
    threads.emplace_back([&, lane] {
      for (std::size_t i = lane; i < n; i += lanes) f(i);
    });
  for (auto &t : threads) t.join();
}

EquivalentStress equivalent(const TurnHistory &turn, int node, const FatigueCriterion &criterion,
                            const FatigueConstants &constants) {
  return turn.harmonic ? criterion.harmonic(turn.harmonic(node), constants)
                       : criterion.sampled(turn.sampled(node), constants);
}

/// Structural stress across the toe over one turn: amplitude and mean of the extrapolated stress.
EquivalentStress across_toe(const TurnHistory &turn, const ToePoint &toe) {
  const auto structural = [&](const Stress &near, const Stress &far) {
    return toe_stress_linear(normal_stress(near, toe.across), normal_stress(far, toe.across));
  };
  EquivalentStress e;
  if (turn.harmonic) {
    const HarmonicHistory a = turn.harmonic(toe.near_node), b = turn.harmonic(toe.far_node);
    e.mean = structural(a.mean, b.mean);
    e.amplitude = std::hypot(structural(a.cosine, b.cosine), structural(a.sine, b.sine));
  } else {
    const SampledHistory a = turn.sampled(toe.near_node), b = turn.sampled(toe.far_node);
    double low = 1e300, high = -1e300;
    for (std::size_t i = 0; i < a.states.size(); ++i) {
      const double x = structural(a.states[i], b.states[i]);
      low = std::min(low, x);
      high = std::max(high, x);
    }
    e.mean = 0.5 * (high + low);
    e.amplitude = 0.5 * (high - low);
  }
  e.fully_reversed = e.amplitude;
  e.plane_normal = toe.across;
  return e;
}

std::size_t index_of_largest(const std::vector<EquivalentStress> &stresses) {
  return std::max_element(stresses.begin(), stresses.end(),
                          [](const EquivalentStress &a, const EquivalentStress &b) {
                            return a.fully_reversed < b.fully_reversed;
                          }) -
         stresses.begin();
}

void put_position(HotSpot &spot, const Vec3 &x) {
  spot.position = x;
  spot.r = std::hypot(x[0], x[1]);
  spot.theta_deg = std::atan2(x[1], x[0]) * 180 / pi;
  if (spot.theta_deg < -1e-9) spot.theta_deg += 360;
  spot.z = x[2];
}

}  // namespace

SnCurve curve_for(const RatingRules &rules, Surface surface, Part part) {
  const auto parent = [&](EdgeQuality edge) {
    return parent_metal_curve(rules.materials.at(part), rules.roughness_rz, edge,
                              rules.sheared_edge_factor);
  };
  switch (surface) {
    case Surface::vent_edge:
      return parent(rules.vent_edges);
    case Surface::bolt_edge:
      return parent(rules.bolt_edges);
    case Surface::weld_toe:
      return weld_curve(weld_class(rules.weld_class));
    case Surface::parent:
      break;
  }
  return parent(EdgeQuality::none);
}

std::vector<HotSpot> hot_spots(const WheelLayout &layout, const Mesh &mesh,
                               const std::vector<RatedPlace> &places, const TurnHistory &turn,
                               const RatingRules &rules, double required_cycles) {
  std::vector<HotSpot> spots;
  for (const RatedPlace &place : places) {
    const bool toe = place.surface == Surface::weld_toe;
    const FatigueConstants constants = fatigue_constants(rules.materials.at(place.part));
    std::vector<EquivalentStress> stresses(toe ? place.toe_points.size() : place.nodes.size());
    parallel_for(stresses.size(), [&](std::size_t i) {
      stresses[i] = toe ? across_toe(turn, place.toe_points[i])
                        : equivalent(turn, place.nodes[i], *rules.criterion, constants);
    });
    if (stresses.empty()) continue;
    const std::size_t worst = index_of_largest(stresses);
    HotSpot spot;
    spot.feature = place.feature;
    spot.test = turn.test;
    spot.notes = place.notes;
    put_position(spot, toe ? place.toe_points[worst].toe : mesh.nodes[place.nodes[worst]]);
    spot.side = toe ? "inner side" : side_of(layout, mesh, place.nodes[worst]);
    spot.mean = stresses[worst].mean;
    spot.amplitude = stresses[worst].amplitude;
    spot.fully_reversed = stresses[worst].fully_reversed;
    spot.criterion = toe ? "structural stress across the toe" : rules.criterion->name;
    rate(spot, curve_for(rules, place.surface, place.part), rules.survival, required_cycles);
    spots.push_back(std::move(spot));
  }
  return spots;
}

NodeFields node_fields(const Mesh &mesh, const TurnHistory &turn, const RatingRules &rules) {
  const std::size_t n = mesh.nodes.size();
  // nodes of one sector: the smallest index of every orbit under the sector turn
  const auto backward = backward_turns(mesh);
  std::vector<int> first(n);
  std::vector<std::size_t> own;
  for (std::size_t i = 0; i < n; ++i) {
    int smallest = static_cast<int>(i);
    for (const auto &turned : backward) smallest = std::min(smallest, turned[i]);
    first[i] = smallest;
    if (smallest == static_cast<int>(i)) own.push_back(i);
  }
  std::map<Part, FatigueConstants> constants;
  std::map<Part, SnCurve> curves;
  for (const auto &[part, material] : rules.materials) {
    constants[part] = fatigue_constants(material);
    curves[part] = curve_for(rules, Surface::parent, part);
  }
  NodeFields fields{std::vector<double>(n), std::vector<double>(n), std::vector<double>(n)};
  parallel_for(own.size(), [&](std::size_t k) {
    const int node = static_cast<int>(own[k]);
    const Part part = mesh.node_parts.empty() ? Part::disc : mesh.node_parts[node];
    const EquivalentStress e = equivalent(turn, node, *rules.criterion, constants.at(part));
    fields.amplitude[node] = e.amplitude;
    fields.mean[node] = e.mean;
    fields.life[node] =
        cycles_to_failure(curves.at(part), std::max(e.fully_reversed, 1e-6), rules.survival);
  });
  for (std::size_t i = 0; i < n; ++i) {
    fields.amplitude[i] = fields.amplitude[first[i]];
    fields.mean[i] = fields.mean[first[i]];
    fields.life[i] = fields.life[first[i]];
  }
  return fields;
}

void sort_and_number(std::vector<HotSpot> &spots) {
  // both infinite: compare by stress
  const auto margin = [](const HotSpot &s) {
    return s.required_cycles > 0 ? s.life_design / s.required_cycles : s.life_design;
  };
  std::stable_sort(spots.begin(), spots.end(), [&](const HotSpot &a, const HotSpot &b) {
    const double x = margin(a), y = margin(b);
    return x != y ? x < y : a.fully_reversed > b.fully_reversed;
  });
  for (std::size_t i = 0; i < spots.size(); ++i) spots[i].id = static_cast<int>(i) + 1;
}

}  // namespace felloe
