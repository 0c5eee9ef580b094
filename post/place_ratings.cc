// SPDX-License-Identifier: GPL-3.0-or-later
// Ratings of the nodes that can become hot spots, and of no others.
#include <algorithm>
#include <functional>
#include <set>

#include "post/hot_spots.h"
#include "solver/parallel.h"

namespace felloe {
namespace {

std::vector<EquivalentStress> equivalent(const std::function<HarmonicHistory(int)> &history,
                                         const int *begin, const int *end,
                                         const FatigueCriterion &criterion,
                                         const FatigueConstants &constants) {
  std::vector<HarmonicHistory> felt;
  for (const int *n = begin; n != end; ++n) felt.push_back(history(*n));
  return criterion.many_harmonic(felt, constants);
}

std::vector<EquivalentStress> equivalent(const std::function<SampledHistory(int)> &history,
                                         const int *begin, const int *end,
                                         const FatigueCriterion &criterion,
                                         const FatigueConstants &constants) {
  std::vector<SampledHistory> felt;
  for (const int *n = begin; n != end; ++n) felt.push_back(history(*n));
  return criterion.many_sampled(felt, constants);
}

/// Rates the nodes in blocks; take(node, its equivalent stress).
template <class History, class Take>
void rate_nodes(const std::function<History(int)> &history, const std::vector<int> &nodes,
                const FatigueCriterion &criterion, const FatigueConstants &constants,
                const Take &take) {
  constexpr std::size_t block = 64;
  const int n_blocks = static_cast<int>((nodes.size() + block - 1) / block);
  parallel_for(0, n_blocks, [&](int b) {
    const std::size_t begin = b * block, end = std::min(nodes.size(), begin + block);
    const auto rated =
        equivalent(history, nodes.data() + begin, nodes.data() + end, criterion, constants);
    for (std::size_t i = begin; i < end; ++i) take(nodes[i], rated[i - begin]);
  });
}

/// The worst node of a place, and of both halves of an edge wherever its burr is.
std::set<int> worst_nodes(const Mesh &mesh, const RatedPlace &place, const NodeRatings &r) {
  std::set<int> worst;
  const auto add_among = [&](const std::function<bool(double eta)> &counts) {
    int found = -1;
    for (const int n : place.nodes)
      if (counts(mesh.node_points[n].eta) &&
          (found < 0 || r.fully_reversed[n] > r.fully_reversed[found]))
        found = n;
    if (found >= 0) worst.insert(found);
  };
  constexpr double middle = 1e-9;
  add_among([](double) { return true; });
  if (place.surface == Surface::parent) return worst;
  add_among([](double eta) { return eta > -middle; });
  add_among([](double eta) { return eta <= -middle; });
  add_among([](double eta) { return eta < middle; });
  add_among([](double eta) { return eta >= middle; });
  return worst;
}

template <class History>
void rate_places(const std::function<History(int)> &history, const Mesh &mesh,
                 const std::vector<RatedPlace> &places, const RatingRules &rules, NodeRatings &r) {
  const std::vector<int> first = first_images(mesh);
  std::map<Part, std::vector<int>> wanted;
  for (const RatedPlace &place : places)
    for (const int n : place.nodes) wanted[place.part].push_back(first[n]);
  for (auto &[part, nodes] : wanted) {
    std::sort(nodes.begin(), nodes.end());
    nodes.erase(std::unique(nodes.begin(), nodes.end()), nodes.end());
    rate_nodes(
        history, nodes, *rules.criterion, constants_of(rules, part),
        [&](int node, const EquivalentStress &e) { r.fully_reversed[node] = e.fully_reversed; });
  }
  const FatigueCriterion &normal = fatigue_criterion("normal stress plane");
  for (const RatedPlace &place : places) {
    for (const int n : place.nodes) r.fully_reversed[n] = r.fully_reversed[first[n]];
    for (const int worst : worst_nodes(mesh, place, r))
      rate_nodes(history, {first[worst]}, normal, constants_of(rules, place.part),
                 [&](int, const EquivalentStress &e) {
                   r.amplitude[worst] = e.amplitude;
                   r.mean[worst] = e.mean;
                 });
  }
}

}  // namespace

NodeRatings place_ratings(const Mesh &mesh, const std::vector<RatedPlace> &places,
                          const TurnHistory &turn, const RatingRules &rules, bool gradients) {
  NodeRatings r;
  r.everywhere = false;
  r.gradients = gradients;
  for (auto *values : {&r.amplitude, &r.mean, &r.fully_reversed}) values->resize(mesh.nodes.size());
  if (turn.harmonic)
    rate_places(turn.harmonic, mesh, places, rules, r);
  else
    rate_places(turn.sampled, mesh, places, rules, r);
  return r;
}

}  // namespace felloe
