// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/thin/place_stress.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "cli/test_turns.h"
#include "cli/unit_solutions.h"
#include "solver/parallel.h"

namespace felloe {
namespace {

constexpr double sharpness = 200;

/// Points whose weight is above exp(-10), at most so many; further ones change nothing.
constexpr std::size_t most_points = 400;

/// Keeps the points that count, with d(mean) / d(stress of the point):
///   S = sum w_i s_i,  w_i ~ exp(a s_i / m),  m the largest
///   dS = sum w_i (1 + a (s_i - S) / m) ds_i - a / m^2 sum w_i s_i (s_i - S) dm
void weigh(const std::vector<double> &s, PlaceStress &place, PlacePoints &points) {
  std::vector<std::size_t> order(s.size());
  std::iota(order.begin(), order.end(), 0);
  const std::size_t n = std::min(s.size(), most_points);
  std::partial_sort(order.begin(), order.begin() + n, order.end(),
                    [&](std::size_t a, std::size_t b) { return s[a] > s[b]; });
  order.resize(n);
  const double m = place.largest = s[order[0]];
  std::vector<double> w;
  double total = 0;
  for (const std::size_t i : order) total += w.emplace_back(std::exp(sharpness * (s[i] / m - 1)));
  while (w.back() < 4e-5) {
    total -= w.back();
    w.pop_back();
  }
  order.resize(w.size());
  for (std::size_t k = 0; k < w.size(); ++k) place.stress += (w[k] /= total) * s[order[k]];
  double of_largest = 0;
  for (std::size_t k = 0; k < w.size(); ++k) {
    const double away = sharpness * (s[order[k]] - place.stress) / m;
    points.weight.push_back(w[k] * (1 + away));
    of_largest -= w[k] * away * s[order[k]] / m;
  }
  points.weight[0] += of_largest;
  const RatedPlace all = points.place;
  points.place.nodes.clear();
  points.place.toe_points.clear();
  for (const std::size_t i : order)
    if (all.surface == Surface::weld_toe)
      points.place.toe_points.push_back(all.toe_points[i]);
    else
      points.place.nodes.push_back(all.nodes[i]);
}

std::vector<double> reversed(const std::vector<EquivalentStress> &all) {
  std::vector<double> values;
  for (const EquivalentStress &e : all) values.push_back(e.fully_reversed);
  return values;
}

template <class History, class Rate>
std::vector<double> in_blocks(const std::vector<int> &nodes,
                              const std::function<History(int)> &history, const Rate &rate) {
  constexpr std::size_t block = 64;
  std::vector<double> values(nodes.size());
  const int n_blocks = static_cast<int>((nodes.size() + block - 1) / block);
  parallel_for(0, n_blocks, [&](int b) {
    std::vector<History> felt;
    const std::size_t begin = b * block, end = std::min(nodes.size(), begin + block);
    for (std::size_t i = begin; i < end; ++i) felt.push_back(history(nodes[i]));
    const std::vector<double> some = reversed(rate(felt));
    std::copy(some.begin(), some.end(), values.begin() + static_cast<long>(begin));
  });
  return values;
}

}  // namespace

std::vector<double> point_stresses(const RatedPlace &place, const TurnHistory &turn,
                                   const RatingRules &rules) {
  if (place.surface == Surface::weld_toe) return toe_stresses(place, turn, rules);
  const FatigueConstants constants = constants_of(rules, place.part);
  if (turn.harmonic)
    return in_blocks(place.nodes, turn.harmonic, [&](const std::vector<HarmonicHistory> &felt) {
      return rules.criterion->many_harmonic(felt, constants);
    });
  return in_blocks(place.nodes, turn.sampled, [&](const std::vector<SampledHistory> &felt) {
    return rules.criterion->many_sampled(felt, constants);
  });
}

std::vector<PlaceStress> place_stresses(const Case &c, const MeshedWheel &w,
                                        const std::vector<std::vector<Solution>> &solved,
                                        std::vector<PlacePoints> &points) {
  const RatingRules rules = rating_rules(c);
  std::vector<PlaceStress> all;
  points.clear();
  for (std::size_t t = 0; t < c.tests.size(); ++t) {
    const RigTest &test = c.tests[t];
    const TurnHistory turn = rig_turn(c, test, w.mesh, solved);
    const Held held = test.kind == RigTestKind::rotating_bending ? Held::rim : Held::hub;
    for (const RatedPlace &place :
         rated_places(w.layout, w.mesh, held, toe_read_out(c.rating.toe_read_out))) {
      PlaceStress p;
      p.feature = place.feature;
      p.test = test.name;
      p.test_number = t;
      const SnCurve curve =
          curve_for(rules, place.surface, place.part, EdgeSide::burr, place.thickness);
      p.allowed = allowed_stress(curve, rules.survival, required_cycles(test, rated_load_of(c)));
      PlacePoints of_place;
      of_place.place = place;
      of_place.part = place.part;
      weigh(point_stresses(place, turn, rules), p, of_place);
      const RatedPlace &kept = of_place.place;
      const Vec3 x = w.mesh.nodes[kept.nodes.empty() ? kept.toe_points[0].nodes[0] : kept.nodes[0]];
      p.r = std::hypot(x[0], x[1]);
      all.push_back(std::move(p));
      points.push_back(std::move(of_place));
    }
  }
  return all;
}

}  // namespace felloe
