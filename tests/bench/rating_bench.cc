// SPDX-License-Identifier: GPL-3.0-or-later
// Points a second that the criteria with a search over planes rate on all cores.
#include <chrono>
#include <cstdio>
#include <ctime>
#include <random>
#include <string>

#include "post/criteria.h"
#include "solver/parallel.h"

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

void measure(const std::string &criterion) {
  const FatigueCriterion &row = fatigue_criterion(criterion);
  const FatigueConstants constants{260, 150, 0.1};
  constexpr int n_blocks = 64, n_states = 75;
  std::vector<std::vector<HarmonicHistory>> harmonic;
  std::vector<std::vector<SampledHistory>> states;
  for (const HarmonicHistory &h : random_histories(n_blocks * block)) {
    if (harmonic.empty() || harmonic.back().size() == block) {
      harmonic.emplace_back();
      states.emplace_back();
    }
    harmonic.back().push_back(h);
    states.back().push_back(sampled(h, n_states));
  }
  std::printf("%-22s one harmonic %10.0f points/s   %d states %10.0f points/s\n", criterion.c_str(),
              points_a_second(n_blocks, [&](int b) { row.many_harmonic(harmonic[b], constants); }),
              n_states,
              points_a_second(n_blocks, [&](int b) { row.many_sampled(states[b], constants); }));
}

}  // namespace
}  // namespace felloe::bench

int main() {
  std::printf("on %d threads, random histories with all components\n", felloe::n_threads());
  for (const char *criterion : {"Findley", "normal stress plane", "Matake"})
    felloe::bench::measure(criterion);
}
