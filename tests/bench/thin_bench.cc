// SPDX-License-Identifier: GPL-3.0-or-later
// Measures `felloe thin` on the demo wheel: the search from three starts, and the best of a Latin
// hypercube sample of the same variables, all on the coarse mesh.
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <numeric>
#include <random>

#include "cli/case_file.h"
#include "cli/thin/thinnest.h"
#include "mesher/error.h"

namespace felloe {
namespace {

struct Best {
  double mass = 1e300, worst = 0;
  int solves = 0;
};

Best from_start(const Case &c, double factor, double density) {
  Case started = c;
  for (ThicknessStation &t : started.wheel.disc.thickness) t.thickness *= factor;
  ThinSearch search(started, density);
  search.report = [](int solve, double mass, double worst) {
    std::fprintf(stderr, "  solve %d: %.4f kg, worst place %+.2f %%\n", solve, mass, 100 * worst);
  };
  const Optimum o = search.search(search.space().start(), 60);
  for (const double v : o.x) std::fprintf(stderr, " %.3f", v);
  std::fprintf(stderr, "  %s\n", o.ended.c_str());
  return {search.mass(o.x), *std::max_element(o.at.limits.begin(), o.at.limits.end()),
          search.model().n_solved()};
}

/// One point in each of n equal slices of every variable, slices paired at random. Laws that break
/// the linear limits are drawn again within their slices, at most 2000 times.
Best of_sample(const Case &c, double density, int n) {
  ThinSearch search(c, density);
  const DesignSpace &space = search.space();
  std::mt19937 random(20240229);
  std::uniform_real_distribution<double> in_slice(0, 1);
  const std::size_t n_variables = space.variables.size();
  Best best;
  int evaluated = 0;
  for (int trial = 0; trial < 2000 && evaluated < n; ++trial) {
    std::vector<std::vector<int>> slices(n_variables, std::vector<int>(n));
    for (auto &s : slices) {
      std::iota(s.begin(), s.end(), 0);
      std::shuffle(s.begin(), s.end(), random);
    }
    for (int k = 0; k < n && evaluated < n; ++k) {
      std::vector<double> x;
      for (std::size_t i = 0; i < n_variables; ++i) {
        // between 70 and 130 % of the start: the whole range would rarely pass or be light
        const double start = space.start()[i], low = std::max(0.7 * start, space.variables[i].low),
                     high = std::min(1.3 * start, space.variables[i].high);
        x.push_back(low + (high - low) * (slices[i][k] + in_slice(random)) / n);
      }
      const bool allowed =
          std::all_of(space.linear.begin(), space.linear.end(), [&](const auto &l) {
            double sum = -l.largest;
            for (const auto &[i, f] : l.terms) sum += f * x[i];
            return sum <= 0;
          });
      if (!allowed) continue;
      ++evaluated;
      try {
        const Evaluation e = search.evaluate(x, false);
        const double worst = *std::max_element(e.limits.begin(), e.limits.end());
        if (worst <= 1e-3 && search.mass(x) < best.mass) best = {search.mass(x), worst, 0};
      } catch (const Error &e) {
        std::fprintf(stderr, "  left out: %s\n", e.what());
      }
    }
  }
  best.solves = evaluated;
  return best;
}

int measure(int n_sample, bool json) {
  const Case c = read_case(FELLOE_DEMO_CASE);
  constexpr double density = 0.5;
  std::vector<Best> starts;
  for (const double factor : {1.0, 1.3, 0.85}) {
    starts.push_back(from_start(c, factor, density));
    std::fprintf(stderr,
                 "start at %.2f of the case's thickness: %.4f kg, worst %+.2f %%, %d solves\n",
                 factor, starts.back().mass, 100 * starts.back().worst, starts.back().solves);
  }
  double least = 1e300, most = 0;
  int solves = 0;
  for (const Best &b : starts) {
    least = std::min(least, b.mass);
    most = std::max(most, b.mass);
    solves = std::max(solves, b.solves);
  }
  const Best sample = n_sample > 0 ? of_sample(c, density, n_sample) : Best{};
  if (json)
    std::printf(
        "{\"thin_mass_kg\": %.5f, \"thin_mass_spread\": %.5f, \"thin_solves\": %d, "
        "\"sample_mass_kg\": %s, \"sample_designs\": %d}\n",
        least, most / least - 1, solves,
        sample.mass < 1e300 ? std::to_string(sample.mass).c_str() : "null", sample.solves);
  else
    std::printf(
        "disc and weld %.4f kg, spread of three starts %.2f %%, at most %d solves\n"
        "best of %d sampled designs: %s kg\n",
        least, 100 * (most / least - 1), solves, sample.solves,
        sample.mass < 1e300 ? std::to_string(sample.mass).c_str() : "none passes");
  return 0;
}

}  // namespace
}  // namespace felloe

int main(int argc, char **argv) {
  int n = 200;
  bool json = false;
  for (int i = 1; i < argc; ++i) {
    if (std::strcmp(argv[i], "--json") == 0) json = true;
    if (std::strcmp(argv[i], "--sample") == 0 && i + 1 < argc) n = std::atoi(argv[++i]);
  }
  try {
    return felloe::measure(n, json);
  } catch (const std::exception &e) {
    std::fprintf(stderr, "%s\n", e.what());
    return 1;
  }
}
