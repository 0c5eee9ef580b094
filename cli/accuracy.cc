// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/accuracy.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <map>
#include <vector>

#include "mesher/error.h"
#include "post/worst_first.h"
#include "solver/processes.h"

namespace felloe {
namespace {

constexpr double order = 2;                                      // of convergence
constexpr double smallest_density = 0.8, largest_density = 2.8;  // of meshes that get error bars
constexpr double least_growth = 1.25;                            // from mesh to finer mesh

std::string percent(double value) {
  char text[32];
  std::snprintf(text, sizeof text, "%.2g %%", value);
  return text;
}

/// @param growth  cells of the mesh that is analysed next over those of this one; 1: none
Analysis analyse_at(double density, double growth, const Case &input, Progress &progress,
                    Purpose purpose) {
  progress.outlook.growth = growth;
  Case c = input;
  c.mesh.density = density;
  char text[64];
  std::snprintf(text, sizeof text, "mesh density %.3g", density);
  progress.note(text);
  return analyse(c, progress, purpose);
}

void say_not_reached(Results &r, double wanted, const std::string &why) {
  const double reached = deciding_error(r);
  r.cautions.insert(
      r.cautions.begin(),
      "The wanted accuracy of " + percent(wanted) + " is not reached: the estimate is " +
          (reached < 0 ? std::string("not available") : percent(reached)) + " (" + why + ").");
}

}  // namespace

double convergence_order(const std::string &feature) {
  return feature == "flange bend" || feature == "bolt hole edge" ? 1 : order;
}

double least_error_percent(double density) { return 1.5 / std::pow(std::max(1.0, density), order); }

double next_density(double density, double error, double wanted) {
  if (density * least_growth > largest_density) return 0;
  const double needed = 1.05 * std::pow(error / wanted, 1 / order);  // a little more than enough
  double growth = error < 0 ? 2 : std::min(2.0, std::max(least_growth, needed));
  if (growth > 1.7) growth = 2;  // the mesh that is solved already is then the coarser one
  return std::min(largest_density, density * growth);
}

void estimate_errors(Results &fine, const Results &coarse, double density) {
  constexpr double safety = 1.25, least_ratio = 1.1;
  const double ratio = std::sqrt(double(fine.mesh.cells) / double(coarse.mesh.cells));
  if (!(ratio >= least_ratio)) return;
  MeshConvergence &meshes = fine.convergence;
  meshes = {coarse.mesh.cells, fine.mesh.cells, coarse.mesh.dofs, fine.mesh.dofs, ratio, {}};
  std::map<std::string, double> of_feature;
  std::vector<HotSpot *> compared;
  for (HotSpot &f : fine.hot_spots)
    for (const HotSpot &c : coarse.hot_spots)
      if (c.feature == f.feature && c.test == f.test && f.fully_reversed > 0) {
        const double p = convergence_order(f.feature);
        const double bar = 100 * safety * std::abs(f.fully_reversed - c.fully_reversed) /
                           (std::pow(ratio, p) - 1) / f.fully_reversed;
        double &largest =
            of_feature.try_emplace(f.feature, least_error_percent(density)).first->second;
        largest = std::max(largest, bar);
        meshes.spots.push_back({f.test, f.feature, c.fully_reversed, f.fully_reversed, p, 0});
        compared.push_back(&f);
      }
  for (std::size_t i = 0; i < compared.size(); ++i)
    compared[i]->error_percent = meshes.spots[i].error_percent =
        of_feature.at(compared[i]->feature);
}

double deciding_error(const Results &r) {
  double largest = 0;
  for (const TestVerdict &t : r.tests)
    for (const HotSpot *h : {worst_of(r.hot_spots, t.name), shortest_lived(r.hot_spots, t.name)}) {
      if (!h) continue;
      if (h->error_percent < 0) return -1;
      largest = std::max(largest, h->error_percent);
    }
  return largest;
}

namespace {

/// A mesh half as dense first, then meshes that grow until the deciding hot spots are accurate
/// enough. Every mesh is compared with the one half as dense: only those two are nested.
Analysis refined(const Case &input, Progress &progress) {
  const double wanted = input.mesh.accuracy_percent;
  Case beside = input;
  beside.modes.count = 0;  // hot spots are all that is wanted of it
  double density = std::max(input.mesh.density, smallest_density);
  Results coarse = analyse_at(density / 2, 4, beside, progress, Purpose::figures).results;
  Analysis fine = analyse_at(density, 1, input, progress, Purpose::files);
  estimate_errors(fine.results, coarse, density);
  for (;;) {
    const double error = Processes::of_first(deciding_error(fine.results));
    progress.note("estimated error of the deciding hot spots: " +
                  (error < 0 ? std::string("not available") : percent(error)));
    if (error >= 0 && error <= wanted) return fine;
    const double next = next_density(density, error, wanted);
    if (next == 0) {
      say_not_reached(fine.results, wanted, "finest mesh of the program");
      return fine;
    }
    try {
      coarse = next == 2 * density
                   ? fine.results
                   : analyse_at(next / 2, 4, beside, progress, Purpose::figures).results;
      Analysis finer = analyse_at(next, 1, input, progress, Purpose::files);
      fine = std::move(finer);
      density = next;
      estimate_errors(fine.results, coarse, density);
    } catch (const Error &e) {
      progress.note(e.what());
      say_not_reached(fine.results, wanted, e.what());
      return fine;
    }
  }
}

}  // namespace

Analysis analyse_to_accuracy(const Case &input, Progress &progress) {
  if (input.mesh.accuracy_percent <= 0 || input.tests.empty())
    return analyse(input, progress, Purpose::files);
  Analysis a = refined(input, progress);
  a.results.assumptions.push_back(
      "error bars: grid convergence index of two nested meshes, order 2, the largest that a "
      "feature shows in any rig test, at least 1.5 % at density 1 (own values, from the demo "
      "wheel)");
  return a;
}

}  // namespace felloe
