// SPDX-License-Identifier: GPL-3.0-or-later
// How many error bars of hot spots contain the error that a much finer mesh shows.
//
//   coverage_bench [--json] [--list] [--first K] [--designs N] [--density D]
//                  [--reference R]
//
// Variants of the demo wheel, spread over their ranges by a Latin hypercube of fixed seed. Each is
// solved with its error bars at the density D (default 1; the mesh beside it has half of that) and
// once at R (default 2: edges half as long, 2.7 million unknowns, 9 GB). A mesh of density 4, two
// levels finer, does not fit into 24 GB: its stress is extrapolated from D and R by the order of
// convergence, so that the error at order 2 is 1.25 times the difference to R, at order 1 1.5
// times. --list shows every bar, not the misses alone.
#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <exception>
#include <numeric>
#include <random>
#include <string>

#include "cli/accuracy.h"
#include "cli/case_file.h"
#include "mesher/error.h"

namespace felloe::bench {
namespace {

constexpr int n_designs = 40;

/// What a variant changes, and between which values. The demo wheel lies inside.
struct Knob {
  const char *name;
  double from, to;
  void (*turn)(Case &, double);
};

const std::array<Knob, 8> &knobs() {
  static const std::array<Knob, 8> all = {{
      {"sheet", 0.88, 1.15,
       [](Case &c, double x) {
         for (ThicknessStation &t : c.wheel.disc.thickness) t.thickness *= x;
       }},
      {"hub bend", 10, 14, [](Case &c, double x) { c.wheel.disc.meridian[0].bend_radius = x; }},
      {"crown bend", 12, 17, [](Case &c, double x) { c.wheel.disc.meridian[1].bend_radius = x; }},
      {"flange bend", 10.5, 13,
       [](Case &c, double x) { c.wheel.disc.meridian[2].bend_radius = x; }},
      {"vent diameter", 24, 30, [](Case &c, double x) { c.wheel.vents.diameter = x; }},
      {"vent circle", 269, 275, [](Case &c, double x) { c.wheel.vents.pitch_circle_diameter = x; }},
      {"weld leg", 3.2, 4.4, [](Case &c, double x) { c.wheel.weld.leg = x; }},
      {"hub diameter", 139, 144, [](Case &c, double x) { c.wheel.disc.hub_face_diameter = x; }},
  }};
  return all;
}

/// Every knob takes every fortieth of its range once.
std::vector<std::vector<double>> designs() {
  std::mt19937 engine(20260117);
  std::vector<std::vector<double>> all(n_designs);
  for (const Knob &k : knobs()) {
    std::vector<int> place(n_designs);
    std::iota(place.begin(), place.end(), 0);
    for (int i = n_designs - 1; i > 0; --i) std::swap(place[i], place[engine() % (i + 1)]);
    for (int d = 0; d < n_designs; ++d)
      all[d].push_back(k.from + (k.to - k.from) * (place[d] + 0.5) / n_designs);
  }
  return all;
}

struct Count {
  int bars = 0, kept = 0;                    ///< of all hot spots with an error bar
  int kept_on_reference = 0;                 ///< against the solved mesh, not extrapolated
  int deciding_bars = 0, deciding_kept = 0;  ///< of the worst of every rig test
  double percent() const { return bars ? 100.0 * kept / bars : NAN; }
  double reference_percent() const { return bars ? 100.0 * kept_on_reference / bars : NAN; }
  double deciding_percent() const {
    return deciding_bars ? 100.0 * deciding_kept / deciding_bars : NAN;
  }
};

Results solved(Case c, double density, Progress &progress) {
  c.mesh.density = density;
  return analyse(c, progress).results;
}

const HotSpot *same_place(const Results &r, const HotSpot &spot) {
  for (const HotSpot &h : r.hot_spots)
    if (h.feature == spot.feature && h.test == spot.test) return &h;
  return nullptr;
}

/// What the difference to a mesh q times finer becomes on one 4 times finer, at order p.
double beyond(double q, double p) { return (1 - std::pow(4, -p)) / (1 - std::pow(q, -p)); }

/// @param ratio  of the densities
void compare(int design, const Results &base, const Results &reference, double ratio, bool list,
             Count &count) {
  for (const HotSpot &h : base.hot_spots) {
    const HotSpot *finer = same_place(reference, h);
    if (!finer || h.error_percent < 0) continue;
    const double difference = 100 * std::abs(finer->fully_reversed / h.fully_reversed - 1);
    const double error = difference * beyond(ratio, convergence_order(h.feature));
    const bool deciding =
        std::none_of(base.hot_spots.begin(), base.hot_spots.end(),
                     [&](const HotSpot &other) { return other.test == h.test && other.id < h.id; });
    const bool kept = error <= h.error_percent;
    count.bars += 1;
    count.kept += kept;
    count.kept_on_reference += difference <= h.error_percent;
    count.deciding_bars += deciding;
    count.deciding_kept += deciding && kept;
    if (!kept || list)
      std::fprintf(stderr, "  %s: design %d, %s, %s: %.2f %% where %.2f %% was estimated%s\n",
                   kept ? "kept" : "miss", design + 1, h.feature.c_str(), h.test.c_str(), error,
                   h.error_percent, deciding ? " (deciding)" : "");
  }
}

struct Asked {
  bool json = false, list = false;
  int first = 1, designs = n_designs;
  double density = 1, reference = 2;
};

Asked asked(int n_words, char **words) {
  Asked a;
  for (int i = 1; i < n_words; ++i) {
    const std::string word = words[i];
    const bool last = i + 1 == n_words;
    if (word == "--json")
      a.json = true;
    else if (word == "--list")
      a.list = true;
    else if (word == "--first" && !last)
      a.first = std::clamp(std::atoi(words[++i]), 1, n_designs);
    else if (word == "--designs" && !last)
      a.designs = std::clamp(std::atoi(words[++i]), 1, n_designs);
    else if (word == "--density" && !last)
      a.density = std::atof(words[++i]);
    else if (word == "--reference" && !last)
      a.reference = std::atof(words[++i]);
    else
      throw Error(
          "coverage_bench: unknown word '" + word +
          "'; usage: coverage_bench [--json] [--list] [--first K] [--designs N] [--density D] "
          "[--reference R]");
  }
  return a;
}

void run(const Asked &a) {
  Case demo = read_case(FELLOE_DEMO_CASE);
  demo.radial.positions_per_turn = 25;  // the same on all meshes; its error is another one
  demo.modes.count = 0;
  const auto all = designs();
  Count count;
  int solved_designs = 0;
  Progress progress(true);
  for (int d = a.first - 1; d < std::min(n_designs, a.first - 1 + a.designs); ++d) {
    Case c = demo;
    for (std::size_t k = 0; k < knobs().size(); ++k) knobs()[k].turn(c, all[d][k]);
    try {
      const double before = progress.total_seconds();
      Results base = solved(c, a.density, progress);
      estimate_errors(base, solved(c, a.density / 2, progress), a.density);
      compare(d, base, solved(c, a.reference, progress), a.reference / a.density, a.list, count);
      ++solved_designs;
      std::fprintf(stderr, "design %d: %d of %d bars so far, %.0f s\n", d + 1, count.kept,
                   count.bars, progress.total_seconds() - before);
    } catch (const Error &e) {
      std::fprintf(stderr, "design %d left out: %s\n", d + 1, e.what());
    }
  }
  if (a.json)
    std::printf(
        "{\"error_bar_coverage_percent\": %.4g, \"coverage_on_reference_percent\": %.4g, "
        "\"deciding_coverage_percent\": %.4g, "
        "\"bars\": %d, \"designs\": %d, \"density\": %g, \"reference_density\": %g}\n",
        count.percent(), count.reference_percent(), count.deciding_percent(), count.bars,
        solved_designs, a.density, a.reference);
  else
    std::printf(
        "error_bar_coverage_percent %.4g  (%d of %d bars, %d designs; deciding hot spots "
        "%.4g %%; against the reference itself %.4g %%; density %g against %g)\n",
        count.percent(), count.kept, count.bars, solved_designs, count.deciding_percent(),
        count.reference_percent(), a.density, a.reference);
}

}  // namespace
}  // namespace felloe::bench

int main(int n_words, char **words) {
  try {
    felloe::bench::run(felloe::bench::asked(n_words, words));
    return 0;
  } catch (const std::exception &e) {
    std::fprintf(stderr, "%s\n", e.what());
    return 2;
  }
}
