// SPDX-License-Identifier: GPL-3.0-or-later
#include "post/hot_spots.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>

#include "post/fkm.h"
#include "post/local_strain.h"
#include "post/notch_gradient.h"
#include "post/spot_turn.h"
#include "solver/parallel.h"

namespace felloe {
namespace {

std::vector<EquivalentStress> equivalent(const std::vector<HarmonicHistory> &histories,
                                         const FatigueCriterion &criterion,
                                         const FatigueConstants &constants) {
  return criterion.many_harmonic(histories, constants);
}

std::vector<EquivalentStress> equivalent(const std::vector<SampledHistory> &histories,
                                         const FatigueCriterion &criterion,
                                         const FatigueConstants &constants) {
  return criterion.many_sampled(histories, constants);
}

/// Structural stress across the toe over one turn. The range counts as much less as the class may
/// be raised for the stress ratio.
EquivalentStress across_toe(const TurnHistory &turn, const ToePoint &toe,
                            const WeldResidualStress &residual) {
  const FigureTurn structural = figure_turn(toe, turn);
  EquivalentStress e;
  e.mean = structural.mean();
  e.amplitude = structural.amplitude();
  e.fully_reversed = e.amplitude / residual.enhancement(e.mean - e.amplitude, e.mean + e.amplitude);
  e.plane_normal = toe.across;
  return e;
}

void put_position(HotSpot &spot, const Vec3 &x) {
  spot.position = x;
  spot.r = std::hypot(x[0], x[1]);
  spot.theta_deg = std::atan2(x[1], x[0]) * 180 / pi;
  if (spot.theta_deg < -1e-9) spot.theta_deg += 360;
  spot.z = x[2];
}

}  // namespace

FatigueConstants constants_of(const RatingRules &rules, Part part) {
  FatigueConstants constants = fatigue_constants(rules.materials.at(part));
  constants.mean_stress = rules.mean_stress;
  return constants;
}

SnCurve curve_for(const RatingRules &rules, Surface surface, Part part, EdgeSide side,
                  double thickness) {
  const auto own = rules.own_curves.find(surface);
  if (own != rules.own_curves.end()) return own->second;
  const SnCurve face = with_finish(parent_metal_curve(rules.materials.at(part), rules.roughness_rz),
                                   surface_finish(rules.surface));
  const auto edge = [&](const std::string &name) {
    return with_edge(face, edge_finish(name), side,
                     name == "sheared" ? rules.sheared_edge_factor : 0);
  };
  switch (surface) {
    case Surface::vent_edge:
      return edge(rules.vent_edges);
    case Surface::bolt_edge:
      return edge(rules.bolt_edges);
    case Surface::weld_toe:
      return weld_curve(weld_class(rules.weld_class), thickness);
    case Surface::parent:
      break;
  }
  return face;
}

namespace {

/// Nodes of one sector by their part, and of every node the one that it repeats: the smallest index
/// of every orbit under the sector turn.
struct OneSector {
  std::vector<int> first;
  std::map<Part, std::vector<int>> own;

  explicit OneSector(const Mesh &mesh) : first(mesh.nodes.size()) {
    const auto backward = backward_turns(mesh);
    for (std::size_t i = 0; i < first.size(); ++i) {
      first[i] = static_cast<int>(i);
      for (const auto &turned : backward) first[i] = std::min(first[i], turned[i]);
      if (first[i] == static_cast<int>(i))
        own[mesh.node_parts.empty() ? Part::disc : mesh.node_parts[i]].push_back(first[i]);
    }
  }
};

/// Rates nodes of one part.
template <class History>
void rate_nodes(const std::function<History(int)> &history, const std::vector<int> &nodes,
                const RatingRules &rules, Part part, NodeRatings &r) {
  const FatigueConstants constants = constants_of(rules, part);
  const SnCurve curve = curve_for(rules, Surface::parent, part);
  const FatigueCriterion &normal = fatigue_criterion("normal stress plane");
  constexpr std::size_t block = 512;  // histories at once
  const int n_blocks = static_cast<int>((nodes.size() + block - 1) / block);
  parallel_for(0, n_blocks, [&](int b) {
    const std::size_t begin = b * block, end = std::min(nodes.size(), begin + block);
    std::vector<History> felt;
    for (std::size_t i = begin; i < end; ++i) felt.push_back(history(nodes[i]));
    const auto seen = equivalent(felt, normal, constants);
    const auto rated =
        rules.criterion == &normal ? seen : equivalent(felt, *rules.criterion, constants);
    for (std::size_t i = begin; i < end; ++i) {
      const int node = nodes[i];
      r.amplitude[node] = seen[i - begin].amplitude;
      r.mean[node] = seen[i - begin].mean;
      r.fully_reversed[node] = rated[i - begin].fully_reversed;
      r.life[node] = cycles_to_failure(
          curve, std::max((curve.stress_range ? 2 : 1) * r.fully_reversed[node], 1e-6),
          rules.survival);
    }
  });
}

}  // namespace

NodeRatings node_ratings(const Mesh &mesh, const TurnHistory &turn, const RatingRules &rules) {
  const OneSector sector(mesh);
  NodeRatings r;
  const auto fields = {&r.amplitude, &r.mean, &r.fully_reversed, &r.life};
  for (auto *values : fields) values->resize(mesh.nodes.size());
  for (const auto &[part, nodes] : sector.own)
    if (turn.harmonic)
      rate_nodes(turn.harmonic, nodes, rules, part, r);
    else
      rate_nodes(turn.sampled, nodes, rules, part, r);
  for (auto *values : fields)
    for (std::size_t i = 0; i < values->size(); ++i) (*values)[i] = (*values)[sector.first[i]];
  return r;
}

namespace {

/// An own curve says for itself what mean stress does.
const WeldResidualStress &residual_stress_of(const RatingRules &rules) {
  const bool own = rules.own_curves.count(Surface::weld_toe) > 0;
  return weld_residual_stress(own ? "high" : rules.weld_residual_stress);
}

/// The largest point of a weld toe.
HotSpot toe_spot(const RatedPlace &place, const TurnHistory &turn, const RatingRules &rules) {
  const WeldResidualStress &residual = residual_stress_of(rules);
  HotSpot spot;
  for (const ToePoint &toe : place.toe_points) {
    const EquivalentStress e = across_toe(turn, toe, residual);
    if (e.fully_reversed < spot.fully_reversed) continue;
    spot.amplitude = e.amplitude;
    spot.fully_reversed = e.fully_reversed;
    spot.mean = e.mean;
    spot.turn = structural_stress_turn(turn, toe);
    put_position(spot, toe.toe);
  }
  spot.side = "inner side";
  spot.notes = place.notes;
  spot.criterion = "structural stress across the toe";
  return spot;
}

int worst_node(const RatedPlace &place, const NodeRatings &ratings) {
  return *std::max_element(place.nodes.begin(), place.nodes.end(), [&](int a, int b) {
    return ratings.fully_reversed[a] < ratings.fully_reversed[b];
  });
}

/// Finds out whether the worst node of a plain face is only the flank of a hot spot next to it: a
/// node of a shared cell that belongs to another place and has more stress. A flank's stress
/// depends on where the border between the places happens to run; the neighbour is rated anyway.
class Flanks {
 public:
  Flanks(const Mesh &mesh, const std::vector<RatedPlace> &places, const NodeRatings &ratings)
      : mesh_(mesh), ratings_(ratings), place_of_(mesh.nodes.size(), -1) {
    for (std::size_t p = 0; p < places.size(); ++p)
      for (const int n : places[p].nodes) place_of_[n] = static_cast<int>(p);
    std::vector<bool> wanted(mesh.nodes.size(), false);
    for (const RatedPlace &place : places)
      if (!place.nodes.empty()) wanted[worst_node(place, ratings)] = true;
    for (std::size_t c = 0; c < mesh.cells.size(); ++c)
      for (const int n : mesh.cells[c])
        if (wanted[n]) cells_[n].push_back(static_cast<int>(c));
  }

  bool is_flank(int node) const {
    const auto around = cells_.find(node);
    if (around == cells_.end()) return false;
    for (const int c : around->second)
      for (const int other : mesh_.cells[c])
        if (place_of_[other] >= 0 && place_of_[other] != place_of_[node] &&
            ratings_.fully_reversed[other] > ratings_.fully_reversed[node])
          return true;
    return false;
  }

 private:
  const Mesh &mesh_;
  const NodeRatings &ratings_;
  std::vector<int> place_of_;
  std::map<int, std::vector<int>> cells_;
};

/// What the criterion has to say of its result at a node.
void add_caution(const TurnHistory &turn, const RatedPlace &place, const RatingRules &rules,
                 int node, HotSpot &spot) {
  if (!rules.criterion->caution) return;
  const FatigueConstants constants = constants_of(rules, place.part);
  const std::string caution = rules.criterion->caution(
      turn.harmonic ? rules.criterion->harmonic(turn.harmonic(node), constants)
                    : rules.criterion->sampled(turn.sampled(node), constants));
  if (!caution.empty()) spot.notes.push_back("criterion '" + spot.criterion + "': " + caution);
}

HotSpot surface_spot(const WheelLayout &layout, const Mesh &mesh, const RatedPlace &place,
                     const TurnHistory &turn, const NodeRatings &ratings,
                     const RatingRules &rules) {
  const int worst = worst_node(place, ratings);
  HotSpot spot;
  put_position(spot, mesh.nodes[worst]);
  spot.side = side_of(layout, mesh, worst);
  spot.mean = ratings.mean[worst];
  spot.amplitude = ratings.amplitude[worst];
  spot.fully_reversed = ratings.fully_reversed[worst];
  spot.criterion = rules.criterion->name;
  spot.notes = place.notes;
  spot.turn = normal_stress_turn(turn, worst, constants_of(rules, place.part));
  add_caution(turn, place, rules, worst, spot);
  return spot;
}

}  // namespace

namespace {

bool is_edge(const RatedPlace &place) {
  return place.surface == Surface::vent_edge || place.surface == Surface::bolt_edge;
}

}  // namespace

std::vector<std::pair<RatedPlace, EdgeSide>> rated_halves(const RatedPlace &place, const Mesh &mesh,
                                                          const RatingRules &rules) {
  if (!is_edge(place) || (rules.burr_side != "outboard" && rules.burr_side != "inboard"))
    return {{place, EdgeSide::burr}};
  const double burr = rules.burr_side == "outboard" ? 1 : -1;
  RatedPlace near = place, far = place;
  near.nodes.clear();
  far.nodes.clear();
  for (int n : place.nodes)
    (mesh.node_points[n].eta * burr > -1e-9 ? near : far).nodes.push_back(n);
  std::vector<std::pair<RatedPlace, EdgeSide>> both;
  if (!near.nodes.empty()) both.emplace_back(std::move(near), EdgeSide::burr);
  if (!far.nodes.empty()) both.emplace_back(std::move(far), EdgeSide::entry);
  return both;
}

namespace {

/// By the criterion, of nodes that the ratings do not have [MPa].
std::vector<double> fully_reversed_at(const std::vector<int> &nodes, const TurnHistory &turn,
                                      const RatingRules &rules, Part part) {
  const auto rated = [&](const auto &history, auto felt) {
    for (const int n : nodes) felt.push_back(history(n));
    return equivalent(felt, *rules.criterion, constants_of(rules, part));
  };
  std::vector<double> values;
  for (const EquivalentStress &e : turn.harmonic
                                       ? rated(turn.harmonic, std::vector<HarmonicHistory>{})
                                       : rated(turn.sampled, std::vector<SampledHistory>{}))
    values.push_back(e.fully_reversed);
  return values;
}

/// What a peak bears more than a smooth bar, after the gradient of the criterion's stress; counts
/// in the curve where the rules say so. Cut edges get none counted: the cut, not the peak, decides.
/// Nothing without the stresses round the place.
void support_notch(const Mesh &mesh, const TurnHistory &turn, const NodeRatings &ratings,
                   const RatingRules &rules, const RatedPlace &place, int node, SnCurve &curve,
                   HotSpot &spot) {
  if (!ratings.gradients) return;
  const std::vector<int> around = nodes_round(mesh, node);
  std::vector<double> values;
  if (ratings.everywhere)
    for (const int n : around) values.push_back(ratings.fully_reversed[n]);
  else
    values = fully_reversed_at(around, turn, rules, place.part);
  const double gradient = std::min(
      100.0, related_gradient_at(mesh, node, ratings.fully_reversed[node], around, values));
  const double n = notch_support_factor(rules.materials.at(place.part), gradient);
  const bool counts = rules.notch_support && !is_edge(place);
  if (counts) curve.knee_amplitude *= n;
  spot.notes.push_back(fmt::format(
      "notch support {:.2f} for the computed related stress gradient {:.2f} per mm (FKM): {}", n,
      gradient, counts ? "counted" : "not counted, on the safe side"));
}

/// The half with the shorter life.
HotSpot rated_surface_spot(const WheelLayout &layout, const Mesh &mesh, const RatedPlace &place,
                           const TurnHistory &turn, const NodeRatings &ratings,
                           const RatingRules &rules, double required_cycles) {
  HotSpot worst;
  bool first = true;
  for (const auto &[half, side] : rated_halves(place, mesh, rules)) {
    HotSpot spot = surface_spot(layout, mesh, half, turn, ratings, rules);
    SnCurve curve = curve_for(rules, place.surface, place.part, side);
    support_notch(mesh, turn, ratings, rules, place, worst_node(half, ratings), curve, spot);
    rate(spot, curve, rules.survival, required_cycles);
    if (first || spot.life_p50 < worst.life_p50) worst = std::move(spot);
    first = false;
  }
  return worst;
}

}  // namespace

std::vector<double> toe_stresses(const RatedPlace &place, const TurnHistory &turn,
                                 const RatingRules &rules) {
  std::vector<double> stresses;
  for (const ToePoint &toe : place.toe_points)
    stresses.push_back(across_toe(turn, toe, residual_stress_of(rules)).fully_reversed);
  return stresses;
}

std::vector<HotSpot> hot_spots(const WheelLayout &layout, const Mesh &mesh,
                               const std::vector<RatedPlace> &places, const TurnHistory &turn,
                               const NodeRatings &ratings, const RatingRules &rules,
                               double required_cycles) {
  const Flanks flanks(mesh, places, ratings);
  std::vector<HotSpot> spots;
  for (const RatedPlace &place : places) {
    const bool toe = place.surface == Surface::weld_toe;
    if (toe ? place.toe_points.empty() : place.nodes.empty()) continue;
    if (place.surface == Surface::parent && flanks.is_flank(worst_node(place, ratings))) continue;
    HotSpot spot =
        toe ? toe_spot(place, turn, rules)
            : rated_surface_spot(layout, mesh, place, turn, ratings, rules, required_cycles);
    if (toe)
      rate(spot, curve_for(rules, place.surface, place.part, EdgeSide::burr, place.thickness),
           rules.survival, required_cycles);
    spot.feature = place.feature;
    spot.part = place.part;
    spot.test = turn.test;
    const std::string yielding =
        yielding_note(rules.materials.at(place.part), spot.amplitude, spot.mean);
    if (!yielding.empty()) spot.notes.push_back(yielding);
    spots.push_back(std::move(spot));
  }
  return spots;
}

}  // namespace felloe
