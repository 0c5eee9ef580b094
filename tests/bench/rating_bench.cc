// SPDX-License-Identifier: GPL-3.0-or-later
// Points a second that the criteria with a search over planes rate on all cores, how near they come
// to trying all planes, and reversals a second of the rainflow counting on one core.
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

namespace felloe::bench {
namespace {

constexpr std::size_t block = 64;  // as the rating of a wheel's nodes

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

/// Rates every block again and again for about a second of wall time; points a second of processor
/// time, times the threads: what a machine without other work gives.
template <class Rate>
double points_a_second(int n_blocks, const Rate &rate) {
  const auto start = std::chrono::steady_clock::now();
  const std::clock_t before = std::clock();
  double points = 0;
  do {
    parallel_for(0, n_blocks, rate);
    points += static_cast<double>(n_blocks) * block;
  } while (seconds_since(start) < 1);
  const double used = double(std::clock() - before) / CLOCKS_PER_SEC;
  return points / used * n_threads();
}

struct Rates {
  double harmonic, sampled;  ///< [points/s]
};

constexpr int n_states = 75;

/// @param n_blocks  of 64 points each
Rates measure(const std::string &criterion, int n_blocks, bool with_states) {
  const FatigueCriterion &row = fatigue_criterion(criterion);
  const FatigueConstants constants{260, 150, 0.1};
  std::vector<std::vector<HarmonicHistory>> harmonic(n_blocks);
  std::vector<std::vector<SampledHistory>> states(with_states ? n_blocks : 0);
  const auto histories = random_histories(n_blocks * block);
  for (std::size_t i = 0; i < histories.size(); ++i) {
    harmonic[i / block].push_back(histories[i]);
    if (with_states) states[i / block].push_back(sampled(histories[i], n_states));
  }
  Rates r{};
  r.harmonic = points_a_second(n_blocks, [&](int b) { row.many_harmonic(harmonic[b], constants); });
  if (with_states)
    r.sampled = points_a_second(n_blocks, [&](int b) { row.many_sampled(states[b], constants); });
  return r;
}

/// Largest relative difference between Findley's search and all planes over random histories.
double worst_difference(int n) {
  const FatigueConstants constants{260, 150, 0.1};
  const double ratio = 2 * constants.limit_torsion / constants.limit_bending - 1;
  const double k = ratio / std::sqrt(1 - ratio * ratio);
  const double uniaxial = 0.5 * (k + std::sqrt(1 + k * k));
  const auto histories = random_histories(n);
  const auto found = fatigue_criterion("Findley").many_harmonic(histories, constants);
  double worst = 0;
  for (int i = 0; i < n; ++i) {
    const double all = findley_of_all_planes(histories[i], k) / uniaxial;
    worst = std::max(worst, std::fabs(found[i].fully_reversed - all) / all);
  }
  return worst;
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

/// 204,800 points, as many as the whole surface of a wheel has.
constexpr int surface_blocks = 3200;

void print_json() {
  const double points = measure("Findley", surface_blocks, false).harmonic;
  const double difference = worst_difference(200);
  std::printf(
      "{\"critical_plane_points_per_s\": %.0f, \"critical_plane_worst_difference\": %.3g, "
      "\"rainflow_reversals_per_s_core\": %.0f, \"rainflow_example_identical\": %s, "
      "\"threads\": %d}\n",
      points, difference, reversals_a_second(), example_is_identical() ? "true" : "false",
      n_threads());
}

void print_table() {
  std::printf("on %d threads, random histories with all components\n", n_threads());
  for (const char *criterion : {"Findley", "normal stress plane", "Matake"}) {
    const Rates r = measure(criterion, 64, true);
    std::printf("%-22s one harmonic %10.0f points/s   %d states %10.0f points/s\n", criterion,
                r.harmonic, n_states, r.sampled);
  }
  std::printf("Findley, one harmonic, %d points: %.0f points/s\n", surface_blocks * int(block),
              measure("Findley", surface_blocks, false).harmonic);
  std::printf("Findley against all planes, 200 histories: largest difference %.2g\n",
              worst_difference(200));
  std::printf("rainflow: %.0f reversals/s on one core; example of ASTM E1049 %s\n",
              reversals_a_second(), example_is_identical() ? "identical" : "DIFFERS");
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
