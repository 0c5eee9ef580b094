// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/deciding_parts.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "cli/test_turns.h"
#include "post/worst_first.h"

namespace felloe {
namespace {

constexpr double near_worst = 0.9, largest_change = 1.4;

/// Design life of a place whose stress is `factor` times as large.
double life_at(const HotSpot &spot, double factor, double survival) {
  const double stress = factor * spot.fully_reversed * (spot.sn.stress_range ? 2 : 1);
  return cycles_to_failure(spot.sn, stress, survival);
}

/// Lives fall with stress: whatever moves both places within the bounds, a place that stays behind
/// when all of it is at the expense of one of them stays behind.
bool could_decide(const HotSpot &spot, const HotSpot &worst, double survival) {
  const double raised = life_at(spot, largest_change, survival);
  return std::isfinite(raised) &&
         (raised <= life_at(worst, 1, survival) ||
          life_at(spot, 1, survival) <= life_at(worst, 1 / largest_change, survival));
}

/// Features of the places that could decide a test of this holding.
std::set<std::string> deciding_features(const Analysis &a, Held held, double survival) {
  std::set<std::string> features;
  for (const TestFields &f : a.fields) {
    if (f.held != held) continue;
    const HotSpot *shortest = shortest_lived(a.results.hot_spots, f.test);
    for (const HotSpot &spot : a.results.hot_spots)
      if (spot.test == f.test && (&spot == shortest || could_decide(spot, *shortest, survival)))
        features.insert(spot.feature);
  }
  return features;
}

/// Marks in `keep` the points that feel nearly the most; stresses of points that count for nothing
/// are zero.
void mark_near_worst(const std::vector<double> &stresses, std::vector<bool> &keep) {
  const double largest = *std::max_element(stresses.begin(), stresses.end());
  for (std::size_t i = 0; i < stresses.size(); ++i)
    if (stresses[i] > 0 && stresses[i] >= near_worst * largest) keep[i] = true;
}

template <class T>
void keep_marked(std::vector<T> &all, const std::vector<bool> &keep) {
  std::vector<T> kept;
  for (std::size_t i = 0; i < all.size(); ++i)
    if (keep[i]) kept.push_back(std::move(all[i]));
  all = std::move(kept);
}

}  // namespace

std::map<Held, std::vector<RatedPlace>> deciding_parts(const Analysis &a,
                                                       const UnitSolutions &units, const Case &c) {
  std::vector<TurnHistory> turns;
  for (std::size_t i = 0; i < c.tests.size(); ++i) turns.push_back(turn_of(a.mesh, c, i, units));
  auto places = a.places;
  for (auto &[held, list] : places) {
    const auto features = deciding_features(a, held, c.rating.survival_percent / 100);
    list.erase(std::remove_if(list.begin(), list.end(),
                              [&](const RatedPlace &p) { return features.count(p.feature) == 0; }),
               list.end());
    for (RatedPlace &p : list) {
      std::vector<bool> nodes(p.nodes.size(), false), toes(p.toe_points.size(), false);
      std::vector<double> stresses;
      for (const TestFields &f : a.fields) {
        if (f.held != held || p.nodes.empty()) continue;
        stresses.clear();
        for (const int n : p.nodes) stresses.push_back(f.nodes.fully_reversed[n]);
        mark_near_worst(stresses, nodes);
      }
      for (std::size_t i = 0; i < turns.size() && !p.toe_points.empty(); ++i) {
        if (a.fields[i].held != held) continue;
        stresses.clear();
        for (const ToePoint &toe : p.toe_points)
          stresses.push_back(figure_turn(toe, turns[i]).amplitude());
        mark_near_worst(stresses, toes);
      }
      keep_marked(p.nodes, nodes);
      keep_marked(p.toe_points, toes);
    }
  }
  return places;
}

}  // namespace felloe
