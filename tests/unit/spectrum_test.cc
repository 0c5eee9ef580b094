// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that a repeated spectrum is counted as if every turn were gone through, and that damage
// sums follow from it.
#include "post/spectrum.h"

#include <gtest/gtest.h>

#include <cmath>

#include "mesher/layout.h"

namespace felloe {
namespace {

const std::vector<double> first{0, 10, -4, 7, 2, 3}, second{20, 25, 18, 24}, third{-5, 0};

/// The whole sequence written out and counted as one closed history.
std::vector<CountedCycle> written_out(const std::vector<std::vector<double>> &turns,
                                      const std::vector<double> &repeats) {
  std::vector<double> all;
  for (std::size_t b = 0; b < turns.size(); ++b)
    for (int i = 0; i < repeats[b]; ++i) all.insert(all.end(), turns[b].begin(), turns[b].end());
  return merged(rainflow(all, Residue::closed));
}

TEST(Spectrum, CountsAsIfEveryTurnWereWrittenOut) {
  const std::vector<std::vector<double>> turns{first, second, third};
  for (const std::vector<double> &repeats :
       {std::vector<double>{1, 1, 1}, {3, 1, 2}, {2, 7, 5}, {1, 4, 1}}) {
    const auto wanted = written_out(turns, repeats);
    const auto found = merged(spectrum_cycles(turns, repeats));
    ASSERT_EQ(found.size(), wanted.size());
    for (std::size_t i = 0; i < found.size(); ++i) {
      EXPECT_EQ(found[i].range, wanted[i].range);
      EXPECT_EQ(found[i].mean, wanted[i].mean);
      EXPECT_EQ(found[i].count, wanted[i].count);
    }
  }
}

TEST(Spectrum, CyclesKnowTheirBlock) {
  std::vector<int> block;
  const auto cycles = spectrum_cycles({first, second}, {5, 1}, &block);
  ASSERT_EQ(block.size(), cycles.size());
  EXPECT_EQ(block.front(), 0);
  EXPECT_EQ(block.back(), -1);
  // the cycle from the lowest to the highest value lies between the blocks
  double largest = 0;
  for (const auto &c : cycles) largest = std::max(largest, c.range);
  EXPECT_EQ(largest, 25 - -4);
}

// One block of sin: amplitude A at mean 0 on every plane square to x; damage turns / N(A).
TEST(Spectrum, DamageOfOneSineIsTurnsOverLife) {
  Mesh mesh;
  mesh.nodes = {{100, 0, 0}, {110, 0, 0}};
  mesh.node_parts = {Part::disc, Part::disc};
  mesh.node_points = {{10, 1}, {20, 1}};
  RatedPlace place{"disc face", Part::disc, Surface::parent, {0, 1}, {}, {}};
  RatingRules rules;
  rules.criterion = &default_criterion();
  rules.materials[Part::disc] = material("S420MC");
  rules.roughness_rz = 20;
  const auto block = [](const char *name, double turns, double amplitude) {
    SpectrumBlock b;
    b.name = name;
    b.turns = turns;
    b.turn.sampled = [amplitude](int node) {
      SampledHistory h;
      for (int k = 0; k < 72; ++k)
        h.states.push_back(
            {{(node == 1 ? 1 : 0.5) * amplitude * std::sin(2 * pi * k / 72), 0, 0, 0, 0, 0}});
      return h;
    };
    return b;
  };
  const SnCurve curve =
      for_spectrum(curve_for(rules, Surface::parent, Part::disc), BelowKnee::flat_branch);
  const auto life = [&](double amplitude) {
    return cycles_to_failure(curve, amplitude, rules.survival);
  };
  const auto one = spectrum_damage(WheelLayout{}, mesh, {place}, {block("a", 1000, 250)}, rules);
  ASSERT_EQ(one.size(), 1u);
  EXPECT_NEAR(one[0].damage * life(250) / 1000, 1, 1e-6);
  EXPECT_EQ(one[0].position[0], 110);
  const auto two = spectrum_damage(WheelLayout{}, mesh, {place},
                                   {block("a", 1000, 250), block("b", 1e6, 100)}, rules);
  EXPECT_NEAR(two[0].damage / (1000 / life(250) + 1e6 / life(100)), 1, 1e-4);
}

}  // namespace
}  // namespace felloe
