// SPDX-License-Identifier: GPL-3.0-or-later
// Damage sums of a spectrum.
#include "post/spectrum.h"

#include <algorithm>
#include <cmath>

#include "post/fkm.h"
#include "solver/parallel.h"

namespace felloe {
namespace {

constexpr double near_worst = 0.8;

/// Damage of one scalar history, block by block.
SpectrumDamage damage_of(const std::vector<std::vector<double>> &turns,
                         const std::vector<SpectrumBlock> &blocks, const SnCurve &curve,
                         const RatingRules &rules, double sensitivity) {
  std::vector<double> repeats, share(blocks.size() + 1, 0);
  for (const SpectrumBlock &b : blocks) repeats.push_back(b.turns);
  std::vector<int> block_of;
  const auto cycles = spectrum_cycles(turns, repeats, &block_of);
  SpectrumDamage d;
  for (std::size_t i = 0; i < cycles.size(); ++i) {
    const double one = miner_damage({cycles[i]}, curve, rules.survival, sensitivity);
    d.damage += one;
    share[block_of[i] < 0 ? blocks.size() : static_cast<std::size_t>(block_of[i])] += one;
    if (cycles[i].range > d.largest_range)
      d.largest_range = cycles[i].range, d.largest_mean = cycles[i].mean;
  }
  const auto most = std::max_element(share.begin(), share.end());
  const auto k = static_cast<std::size_t>(most - share.begin());
  d.block = k < blocks.size() ? blocks[k].name : "between blocks";
  d.block_share = d.damage > 0 ? *most / d.damage : 0;
  return d;
}

/// The worse one: by damage, and where none does any, by range.
bool worse(const SpectrumDamage &a, const SpectrumDamage &b) {
  return a.damage != b.damage ? a.damage > b.damage : a.largest_range > b.largest_range;
}

/// What the criterion of normal stress finds at every node in one block, a few nodes at a time: no
/// more histories are held at once than are rated at once.
std::vector<EquivalentStress> seen_in(const SpectrumBlock &block, const std::vector<int> &nodes,
                                      const FatigueConstants &constants) {
  constexpr int at_once = 64;
  const FatigueCriterion &normal = fatigue_criterion("normal stress plane");
  std::vector<EquivalentStress> seen(nodes.size());
  const int n = static_cast<int>(nodes.size());
  parallel_for(0, (n + at_once - 1) / at_once, [&](int group) {
    const int begin = group * at_once, end = std::min(n, begin + at_once);
    std::vector<SampledHistory> felt;
    for (int i = begin; i < end; ++i) felt.push_back(block.turn.sampled(nodes[i]));
    const auto found = normal.many_sampled(felt, constants);
    std::copy(found.begin(), found.end(), seen.begin() + begin);
  });
  return seen;
}

SpectrumDamage worst_of_surface(const WheelLayout &layout, const Mesh &mesh,
                                const RatedPlace &place, const std::vector<SpectrumBlock> &blocks,
                                const RatingRules &rules, const SnCurve &curve) {
  const Material &material = rules.materials.at(place.part);
  const FatigueConstants constants = fatigue_constants(material);
  std::vector<std::vector<EquivalentStress>> seen;
  std::vector<bool> wanted(place.nodes.size(), false);
  for (const SpectrumBlock &block : blocks) {
    seen.push_back(seen_in(block, place.nodes, constants));
    double largest = 0;
    for (const auto &e : seen.back()) largest = std::max(largest, e.fully_reversed);
    for (std::size_t i = 0; i < wanted.size(); ++i)
      if (seen.back()[i].fully_reversed >= near_worst * largest) wanted[i] = true;
  }
  std::vector<SpectrumDamage> found(place.nodes.size());
  parallel_for(0, static_cast<int>(place.nodes.size()), [&](int i) {
    if (!wanted[i]) return;
    std::vector<SampledHistory> felt;
    for (const SpectrumBlock &block : blocks) felt.push_back(block.turn.sampled(place.nodes[i]));
    for (const auto &planes : seen) {
      const Vec3 n = planes[i].plane_normal;
      if (norm(n) == 0) continue;
      std::vector<std::vector<double>> turns;
      for (const auto &in_block : felt) {
        turns.emplace_back();
        for (const Stress &s : in_block.states) turns.back().push_back(normal_stress(s, n));
      }
      const SpectrumDamage d =
          damage_of(turns, blocks, curve, rules, mean_stress_sensitivity(material));
      if (worse(d, found[i])) found[i] = d;
    }
  });
  std::size_t worst = 0;
  for (std::size_t i = 1; i < found.size(); ++i)
    if (worse(found[i], found[worst])) worst = i;
  found[worst].position = mesh.nodes[place.nodes[worst]];
  found[worst].side = side_of(layout, mesh, place.nodes[worst]);
  return found[worst];
}

SpectrumDamage worst_of_toe(const RatedPlace &place, const std::vector<SpectrumBlock> &blocks,
                            const RatingRules &rules, const SnCurve &curve) {
  std::vector<SpectrumDamage> found(place.toe_points.size());
  parallel_for(0, static_cast<int>(found.size()), [&](int i) {
    const ToePoint &toe = place.toe_points[i];
    std::vector<std::vector<double>> turns;
    for (const SpectrumBlock &b : blocks) turns.push_back(figure_turn(toe, b.turn).states);
    // welds take ranges: the mean does not count
    found[i] =
        damage_of(turns, blocks, curve, rules,
                  curve.stress_range ? 0 : mean_stress_sensitivity(rules.materials.at(place.part)));
    found[i].position = toe.toe;
    found[i].side = "inner side";
  });
  return *std::min_element(found.begin(), found.end(), worse);
}

}  // namespace

std::vector<CountedCycle> spectrum_cycles(const std::vector<std::vector<double>> &turns,
                                          const std::vector<double> &repeats,
                                          std::vector<int> *block_of) {
  std::vector<CountedCycle> cycles;
  std::vector<double> sequence;
  const auto add = [&](const std::vector<double> &history, double times, int block) {
    for (CountedCycle c : rainflow(history, Residue::closed)) {
      c.count *= times;
      cycles.push_back(c);
      if (block_of) block_of->push_back(block);
    }
  };
  for (std::size_t b = 0; b < turns.size(); ++b) {
    if (repeats[b] > 1) add(turns[b], repeats[b] - 1, static_cast<int>(b));
    sequence.insert(sequence.end(), turns[b].begin(), turns[b].end());
  }
  if (!turns.empty()) add(sequence, 1, turns.size() == 1 ? 0 : -1);
  return cycles;
}

std::vector<SpectrumDamage> spectrum_damage(const WheelLayout &layout, const Mesh &mesh,
                                            const std::vector<RatedPlace> &places,
                                            const std::vector<SpectrumBlock> &blocks,
                                            const RatingRules &rules) {
  std::vector<SpectrumDamage> all;
  for (const RatedPlace &place : places) {
    const bool toe = place.surface == Surface::weld_toe;
    if (toe ? place.toe_points.empty() : place.nodes.empty()) continue;
    const SnCurve curve =
        for_spectrum(curve_for(rules, place.surface, place.part, EdgeSide::burr, place.thickness),
                     BelowKnee::flat_branch);
    SpectrumDamage d = toe ? worst_of_toe(place, blocks, rules, curve)
                           : worst_of_surface(layout, mesh, place, blocks, rules, curve);
    d.feature = place.feature;
    d.curve = curve.name;
    all.push_back(std::move(d));
  }
  std::stable_sort(all.begin(), all.end(), worse);
  return all;
}

}  // namespace felloe
