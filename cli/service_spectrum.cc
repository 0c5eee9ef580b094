// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/service_spectrum.h"

#include <cmath>

#include "cli/rating_steps.h"
#include "cli/test_turns.h"
#include "post/spectrum.h"

namespace felloe {
namespace {

/// Steady state, rolling radial force, and the moment of the lateral force at the same angle.
///
/// A force F along z at r (cos phi, sin phi) turns the rim by F r (sin phi, -cos phi); with the rim
/// held the hub feels the opposite.
SpectrumBlock block_of(const Analysis &a, const Case &c, const SpectrumInput &input,
                       const UnitSolutions &units) {
  std::vector<const Solution *> steady, rolling;
  for (const auto *group : {&units.pressed, &units.clamp, &units.inflation})
    for (const Solution &s : *group) steady.push_back(&s);
  for (const Solution &s : units.rolling) rolling.push_back(&s);
  SpectrumBlock block;
  block.name = input.name;
  block.turns = input.turns;
  const TurnHistory radial =
      rolling_turn(input.name, a.mesh, steady, rolling, input.radial_N / unit_force);
  const double moment = input.lateral_N * c.tyre.static_radius_mm / unit_moment;
  block.turn.test = input.name;
  block.turn.sampled = [radial, moment, &units](int node) {
    SampledHistory h = radial.sampled(node);
    if (moment == 0) return h;
    const Stress &x = units.moment_x.stress[node], &y = units.moment_y.stress[node];
    for (std::size_t k = 0; k < h.states.size(); ++k) {
      const double phi = 2 * pi * static_cast<double>(k) / static_cast<double>(h.states.size());
      h.states[k] = h.states[k] + (-moment * std::sin(phi)) * x + (moment * std::cos(phi)) * y;
    }
    return h;
  };
  return block;
}

}  // namespace

void rate_spectrum(Analysis &a, const Case &c, const UnitSolutions &units, Progress &progress) {
  if (c.spectrum.empty() || !units.contact.empty()) return;
  progress.step("service spectrum: " + std::to_string(c.spectrum.size()) + " blocks");
  std::vector<SpectrumBlock> blocks;
  for (const SpectrumInput &input : c.spectrum) blocks.push_back(block_of(a, c, input, units));
  for (const SpectrumDamage &d :
       spectrum_damage(a.layout, a.mesh, places_of(a, Held::hub), blocks, rating_rules(c))) {
    SpectrumPlace p;
    p.feature = d.feature;
    p.side = d.side;
    p.curve = d.curve;
    p.block = d.block;
    p.block_share = d.block_share;
    p.r = std::hypot(d.position[0], d.position[1]);
    p.theta_deg = std::atan2(d.position[1], d.position[0]) * 180 / pi;
    p.z = d.position[2];
    p.damage = d.damage;
    p.largest_range_MPa = d.largest_range;
    p.largest_mean_MPa = d.largest_mean;
    a.results.spectrum.push_back(p);
  }
  double turns = 0;
  for (const SpectrumInput &input : c.spectrum) turns += input.turns;
  a.results.spectrum_turns = turns;
  a.results.assumptions.push_back(
      "spectrum: rainflow of the repeated spectrum (ASTM E1049, residue closed), Miner sum 1, "
      "slope 2 k - 1 below a knee (Haibach, from memory, verify); lateral force as a moment with "
      "the static radius, its axial share left out");
}

}  // namespace felloe
