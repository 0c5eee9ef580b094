// SPDX-License-Identifier: GPL-3.0-or-later
// Points a second that the criteria with a search over planes rate on all cores, on the surface of
// the demo wheel and on random histories, how near they come to trying all planes, and reversals a
// second of the rainflow counting on one core.
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstring>
#include <ctime>
#include <random>
#include <string>

#include "post/criteria.h"
#include "post/rainflow.h"
#include "solver/parallel.h"
#include "tests/bench/all_planes.h"
#include "tests/bench/demo_surface.h"

namespace felloe::bench {
namespace {

constexpr std::size_t block = 512;  // as the rating of a wheel's nodes

double seconds_since(std::chrono::steady_clock::time_point start) {
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

std::vector<HarmonicHistory> random_histories(std::size_t n) {
  std::mt19937 engine(20260117);
  std::uniform_real_distribution<double> value(-100, 100);
  std::vector<HarmonicHistory> all(n);
  for (HarmonicHistory &h : all)
    for (Stress *s : {&h.mean, &h.cosine, &h.sine})
      for (double &c : s->s) c = value(engine);
  return all;
}

/// Histories in blocks, as the rating of a wheel takes them.
using Blocks = std::vector<std::vector<HarmonicHistory>>;
Blocks in_blocks(const std::vector<HarmonicHistory> &all) {
  Blocks blocks;
  for (std::size_t i = 0; i < all.size(); i += block)
    blocks.emplace_back(all.begin() + static_cast<long>(i),
                        all.begin() + static_cast<long>(std::min(all.size(), i + block)));
  return blocks;
}

struct Rates {
  double by_processor = 0;  ///< points a second of processor time, times the threads: what a
                            ///< machine without other work gives
  double by_wall = 0;       ///< points a second of wall time
};

/// Rates all blocks again and again for about a second of wall time.
template <class Rate>
Rates points_a_second(std::size_t n_points, int n_blocks, const Rate &rate) {
  const auto start = std::chrono::steady_clock::now();
  const std::clock_t before = std::clock();
  double points = 0;
  do {
    parallel_for(0, n_blocks, rate);
    points += static_cast<double>(n_points);
  } while (seconds_since(start) < 1);
  const double used = double(std::clock() - before) / CLOCKS_PER_SEC;
  return {points / used * n_threads(), points / seconds_since(start)};
}

Rates rate_all(const char *criterion, const std::vector<HarmonicHistory> &histories,
               const FatigueConstants &constants) {
  const FatigueCriterion &row = fatigue_criterion(criterion);
  const Blocks blocks = in_blocks(histories);
  return points_a_second(histories.size(), static_cast<int>(blocks.size()),
                         [&](int b) { row.many_harmonic(blocks[b], constants); });
}

constexpr int n_states = 75;

Rates rate_states(const char *criterion, const std::vector<HarmonicHistory> &histories,
                  const FatigueConstants &constants) {
  const FatigueCriterion &row = fatigue_criterion(criterion);
  std::vector<std::vector<SampledHistory>> blocks;
  for (const auto &some : in_blocks(histories)) {
    blocks.emplace_back();
    for (const HarmonicHistory &h : some) blocks.back().push_back(sampled(h, n_states));
  }
  return points_a_second(histories.size(), static_cast<int>(blocks.size()),
                         [&](int b) { row.many_sampled(blocks[b], constants); });
}

struct Difference {
  double worst = 0, share = 0;  ///< largest shortfall, relative; points short by more than 1e-4
  double beyond = 0;            ///< largest excess: the slow way stopped on a ridge
  std::size_t n = 0;
};

/// Between the search and all planes, relative to the larger of the value and a thousandth of the
/// largest one: where nothing acts nothing is compared.
Difference difference(bool limited, const std::vector<HarmonicHistory> &histories,
                      const FatigueConstants &constants) {
  const double ratio = 2 * constants.limit_torsion / constants.limit_bending - 1;
  const double k = ratio / std::sqrt(1 - ratio * ratio);
  const double bar = 0.5 * (k + std::sqrt(1 + k * k));
  const auto found = fatigue_criterion(limited ? "limited Findley" : "Findley")
                         .many_harmonic(histories, constants);
  double largest = 0;
  for (const EquivalentStress &e : found) largest = std::max(largest, e.fully_reversed);
  std::vector<double> apart(histories.size());
  parallel_for(0, static_cast<int>(histories.size()), [&](int i) {
    const double all = findley_of_all_planes(histories[i], k, limited) / bar;
    apart[i] = (all - found[i].fully_reversed) / std::max(all, 1e-3 * largest);
  });
  Difference d;
  d.n = apart.size();
  for (const double x : apart) {
    d.worst = std::max(d.worst, x);
    d.beyond = std::max(d.beyond, -x);
    d.share += (x > 1e-4) / static_cast<double>(d.n);
  }
  return d;
}

/// Every so many of the points, and those with the largest stress.
std::vector<HarmonicHistory> sample(const std::vector<HarmonicHistory> &all,
                                    const FatigueConstants &constants, std::size_t spread,
                                    std::size_t largest) {
  std::vector<HarmonicHistory> some;
  for (std::size_t i = 0; i < spread; ++i) some.push_back(all[i * all.size() / spread]);
  const auto rated = default_criterion().many_harmonic(all, constants);
  std::vector<std::size_t> order(all.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::partial_sort(order.begin(), order.begin() + static_cast<long>(largest), order.end(),
                    [&](std::size_t a, std::size_t b) {
                      return rated[a].fully_reversed > rated[b].fully_reversed;
                    });
  for (std::size_t i = 0; i < largest; ++i) some.push_back(all[order[i]]);
  return some;
}

/// Reversals a second of processor time: a random walk of turning points, counted into bins by
/// range and mean as a damage sum would use them.
double reversals_a_second() {
  std::mt19937 engine(20260117);
  std::uniform_real_distribution<float> value(0, 1);
  std::vector<float> history(1 << 22);
  for (std::size_t i = 0; i < history.size(); ++i)
    history[i] = (i % 2 ? 1.F : -1.F) * value(engine);  // signs alternate: all are turning points
  std::vector<double> bins(64 * 64);
  const std::clock_t before = std::clock();
  double reversals = 0, used = 0;
  do {
    RainflowCounter counter(Residue::closed);
    const auto bin = [&](const CountedCycle &c) {
      bins[64 * static_cast<std::size_t>(31 * c.range) +
           static_cast<std::size_t>(31 * (c.mean + 1))] += c.count;
    };
    for (const float v : history) counter.push(v, bin);
    counter.finish(bin);
    reversals += static_cast<double>(history.size());
    used = double(std::clock() - before) / CLOCKS_PER_SEC;
  } while (used < 1);
  double total = 0;
  for (const double b : bins) total += b;
  if (std::fabs(2 * total / reversals - 1) > 1e-3) std::fprintf(stderr, "cycles were lost\n");
  return reversals / used;
}

/// The standard's example: 3:.5, 4:1.5, 6:.5, 8:1, 9:.5 (ASTM E1049-85, Figure 6).
bool example_is_identical() {
  double count[10] = {};
  for (const CountedCycle &c : rainflow({-2, 1, -3, 5, -1, 3, -4, 4, -2}, Residue::half_cycles))
    count[static_cast<int>(c.range)] += c.count;
  const double wanted[10] = {0, 0, 0, 0.5, 1.5, 0, 0.5, 0, 1, 0.5};
  return std::equal(count, count + 10, wanted);
}

const FatigueConstants any_steel{260, 150, 0.1};

/// Everything that is measured. Random histories have all components; the demo's surface is free of
/// traction, so that many planes tie.
struct Measured {
  DemoSurface surface;
  Rates by_default, by_findley, random;
  Difference of_default, of_findley, of_random;
  double reversals = 0;
  bool example = false;
};

Measured measure() {
  Measured m;
  std::fprintf(stderr, "solving the demo wheel for its surface\n");
  m.surface = demo_surface(FELLOE_DEMO_CASE, 200000);
  const auto &felt = m.surface.histories;
  const FatigueConstants &c = m.surface.constants;
  const auto random = random_histories(felt.size());
  m.by_default = rate_all("limited Findley", felt, c);
  m.by_findley = rate_all("Findley", felt, c);
  m.random = rate_all("Findley", random, any_steel);
  std::fprintf(stderr, "trying all planes\n");
  const auto some = sample(felt, c, 19000, 1000);
  m.of_default = difference(true, some, c);
  m.of_findley = difference(false, some, c);
  m.of_random = difference(false, random_histories(500), any_steel);
  m.reversals = reversals_a_second();
  m.example = example_is_identical();
  return m;
}

void print_json() {
  const Measured m = measure();
  std::printf(
      "{\"critical_plane_points_per_s\": %.0f, \"critical_plane_worst_difference\": %.3g, "
      "\"surface_points\": %zu, \"surface_mesh_density\": %.3g, "
      "\"default_points_per_s\": %.0f, \"findley_points_per_s\": %.0f, "
      "\"random_points_per_s\": %.0f, \"default_points_per_s_wall\": %.0f, "
      "\"default_worst_difference\": %.3g, \"findley_worst_difference\": %.3g, "
      "\"random_worst_difference\": %.3g, \"compared_points\": %zu, "
      "\"rainflow_reversals_per_s_core\": %.0f, \"rainflow_example_identical\": %s, "
      "\"threads\": %d}\n",
      std::min({m.by_default.by_wall, m.by_findley.by_wall, m.random.by_wall}),
      std::max({m.of_default.worst, m.of_findley.worst, m.of_random.worst}),
      m.surface.histories.size(), m.surface.density, m.by_default.by_processor,
      m.by_findley.by_processor, m.random.by_processor, m.by_default.by_wall, m.of_default.worst,
      m.of_findley.worst, m.of_random.worst, m.of_default.n, m.reversals,
      m.example ? "true" : "false", n_threads());
}

void print_difference(const char *what, const Difference &d) {
  std::printf(
      "%-38s short by %.2g at most, by more than 1e-4 at %.3f %% of %zu points; beyond %.2g\n",
      what, d.worst, 100 * d.share, d.n, d.beyond);
}

void print_table() {
  const Measured m = measure();
  std::printf("on %d threads; points/s by processor time (by wall time)\n", n_threads());
  std::printf("demo wheel, '%s', mesh density %.3g, %zu points of its skin\n",
              m.surface.test.c_str(), m.surface.density, m.surface.histories.size());
  const auto rate = [](const char *what, const Rates &r) {
    std::printf("%-38s %10.0f points/s (%.0f)\n", what, r.by_processor, r.by_wall);
  };
  rate("limited Findley, its one harmonic", m.by_default);
  rate("Findley, its one harmonic", m.by_findley);
  rate("Findley, as many random histories", m.random);
  const auto few = random_histories(64 * block);
  for (const char *criterion : {"Findley", "normal stress plane", "Matake"}) {
    rate((std::string(criterion) + ", random").c_str(), rate_all(criterion, few, any_steel));
    rate((std::string(criterion) + ", 75 states").c_str(), rate_states(criterion, few, any_steel));
  }
  std::printf("against all planes, 1 degree apart and refined:\n");
  print_difference("limited Findley, demo wheel", m.of_default);
  print_difference("Findley, demo wheel", m.of_findley);
  print_difference("Findley, random", m.of_random);
  std::printf("rainflow: %.0f reversals/s on one core; example of ASTM E1049 %s\n", m.reversals,
              m.example ? "identical" : "DIFFERS");
}

}  // namespace
}  // namespace felloe::bench

int main(int argc, char **argv) {
  if (argc == 1)
    felloe::bench::print_table();
  else if (argc == 2 && std::strcmp(argv[1], "--json") == 0)
    felloe::bench::print_json();
  else {
    std::fprintf(stderr, "usage: rating_bench [--json]\n");
    return 2;
  }
}
