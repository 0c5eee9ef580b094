// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/service_spectrum.h"

#include <cmath>
#include <filesystem>
#include <functional>

#include "cli/csv_table.h"
#include "cli/rating_steps.h"
#include "cli/test_turns.h"
#include "mesher/error.h"
#include "post/spectrum.h"

namespace felloe {
namespace {

/// What acts at one instant.
struct Instant {
  double phi, radial, lateral;  ///< angle of the load round the wheel [rad], forces [N]
};

/// Steps of a table; more would not fit into memory with the points rated at once.
constexpr std::size_t most_rows = 20000;

std::vector<Instant> read_series(const Case &c, const SpectrumInput &input) {
  const std::string path = series_path(c, input);
  const CsvTable table(path, {{"angle_deg", false, false, -1e9, 1e9},
                              {"radial_N", false, false, 0, 1e6},
                              {"lateral_N", false, false, -1e6, 1e6}});
  if (!table.has("angle_deg") || !table.has("radial_N"))
    throw Error(path + ":1:1: the columns angle_deg and radial_N are needed; lateral_N may follow");
  if (table.rows() > most_rows)
    throw Error(path + ": " + std::to_string(table.rows()) +
                " rows are too many; accepted: up to " + std::to_string(most_rows) +
                "; split the series into several blocks");
  if (table.has("lateral_N") && c.tyre.static_radius_mm == 0)
    throw Error(c.file + ": [[spectrum]] '" + input.name +
                "': lateral forces need [tyre] static_radius_mm, their lever arm");
  std::vector<Instant> series;
  for (std::size_t i = 0; i < table.rows(); ++i)
    series.push_back({table.number(i, "angle_deg") * pi / 180, table.number(i, "radial_N"),
                      table.has("lateral_N") ? table.number(i, "lateral_N") : 0});
  return series;
}

/// Forces that change from instant to instant: between the solved positions of the rolling load
/// stresses are interpolated.
std::function<SampledHistory(int)> series_history(const Analysis &a, const Case &c,
                                                  const SpectrumInput &input,
                                                  const std::vector<const Solution *> &steady,
                                                  const std::vector<const Solution *> &rolling,
                                                  const UnitSolutions &units) {
  const TurnHistory unit = rolling_turn(input.name, a.mesh, {}, rolling, 1 / unit_force);
  const double lever = c.tyre.static_radius_mm / unit_moment;
  return [unit, lever, steady, series = read_series(c, input), &units](int node) {
    const std::vector<Stress> turn = unit.sampled(node).states;
    Stress mean{};
    for (const Solution *s : steady) mean = mean + s->stress[node];
    const Stress &x = units.moment_x.stress[node], &y = units.moment_y.stress[node];
    const double n = static_cast<double>(turn.size());
    SampledHistory h;
    h.states.reserve(series.size());
    for (const Instant &now : series) {
      const double at = (now.phi / (2 * pi) - std::floor(now.phi / (2 * pi))) * n;
      const auto k = static_cast<std::size_t>(at) % turn.size();
      const double part = at - std::floor(at), moment = now.lateral * lever;
      h.states.push_back(mean + now.radial * (1 - part) * turn[k] +
                         now.radial * part * turn[(k + 1) % turn.size()] +
                         (-moment * std::sin(now.phi)) * x + (moment * std::cos(now.phi)) * y);
    }
    return h;
  };
}

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
  block.turn.test = input.name;
  if (!input.time_series.empty()) {
    block.turn.sampled = series_history(a, c, input, steady, rolling, units);
    return block;
  }
  const TurnHistory radial =
      rolling_turn(input.name, a.mesh, steady, rolling, input.radial_N / unit_force);
  const double moment = input.lateral_N * c.tyre.static_radius_mm / unit_moment;
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

std::string series_path(const Case &c, const SpectrumInput &input) {
  const std::filesystem::path path = input.time_series;
  return path.is_absolute() ? path.string()
                            : (std::filesystem::path(c.file).parent_path() / path).string();
}

void check_spectrum(const Case &c) {
  for (const SpectrumInput &input : c.spectrum)
    if (!input.time_series.empty()) read_series(c, input);
}

void rate_spectrum(Analysis &a, const Case &c, const UnitSolutions &units, Progress &progress) {
  if (c.spectrum.empty() || !units.contact.empty()) return;
  progress.step("service spectrum: " + std::to_string(c.spectrum.size()) + " blocks");
  std::vector<SpectrumBlock> blocks;
  for (const SpectrumInput &input : c.spectrum) blocks.push_back(block_of(a, c, input, units));
  for (const SpectrumDamage &d :
       spectrum_damage(a.layout, a.mesh, places_of(a, c, Held::hub), blocks, rating_rules(c))) {
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
