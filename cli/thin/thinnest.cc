// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/thin/thinnest.h"

#include <algorithm>
#include <cstdio>

namespace felloe {
namespace {

std::string key_of(const std::string &feature, const std::string &test) {
  return feature + "|" + test;
}

std::string percent(double share) {
  char text[32];
  std::snprintf(text, sizeof text, "%.1f %%", 100 * share);
  return text;
}

/// Central differences of the exact volumes.
std::vector<double> mass_gradient(const ThinSearch &search, const std::vector<double> &x) {
  std::vector<double> g;
  for (std::size_t i = 0; i < x.size(); ++i) {
    std::vector<double> more = x, less = x;
    const double h = 1e-3 * x[i];
    more[i] += h;
    less[i] -= h;
    g.push_back((search.mass(more) - search.mass(less)) / (2 * h));
  }
  return g;
}

std::vector<double> thinner(std::vector<double> x, std::size_t n_stations, double less) {
  for (std::size_t i = 0; i < n_stations; ++i) x[i] -= less;
  return x;
}

/// The wheel at its lower tolerance on the case's own mesh, with an error bar at every place.
std::vector<VerifiedPlace> verified(const Case &c, const DesignSpace &space,
                                    const std::vector<double> &x,
                                    const std::vector<PlaceStress> &places, Results &results,
                                    Progress &progress) {
  Case checked = case_of(c, space, x, c.thin.tolerance_mm);
  // without a wish of its own: one coarser mesh for the error bars, whatever they say
  if (checked.mesh.accuracy_percent <= 0) checked.mesh.accuracy_percent = 50;
  checked.modes.count = 0;
  results = analyse_to_accuracy(checked, progress).results;
  std::vector<VerifiedPlace> all;
  for (const HotSpot &h : results.hot_spots)
    for (const PlaceStress &p : places) {
      if (p.feature != h.feature || p.test != h.test) continue;
      VerifiedPlace v{
          h.feature, h.test, h.fully_reversed, p.allowed, std::max(0.0, h.error_percent), 0};
      v.share = v.stress * (1 + v.error_percent / 100) / v.allowed;
      all.push_back(v);
    }
  std::sort(all.begin(), all.end(),
            [](const VerifiedPlace &a, const VerifiedPlace &b) { return a.share > b.share; });
  return all;
}

}  // namespace

Case case_of(const Case &c, const DesignSpace &space, const std::vector<double> &x, double less) {
  Case result = c;
  result.wheel = space.wheel_of(x, less);
  return result;
}

ThinSearch::ThinSearch(const Case &c, double density) : case_(c), space_(design_space(c)) {
  const std::vector<double> x0 = space_.start();
  model_ = std::make_unique<ThinModel>(
      c, mesh_size(density), [this](const std::vector<double> &x) { return space_.wheel_of(x, 0); },
      thinner(x0, space_.n_stations(), c.thin.tolerance_mm));
  unit_mass_ = mass(x0);
}

double ThinSearch::mass(const std::vector<double> &x) const {
  return disc_mass(case_, space_.wheel_of(x, 0));
}

double ThinSearch::factor(const PlaceStress &p) const {
  const auto found = factors.find(key_of(p.feature, p.test));
  return found == factors.end() ? first_stress_factor : found->second;
}

Evaluation ThinSearch::evaluate(const std::vector<double> &x, bool gradients) {
  Evaluation e;
  const auto &places =
      model_->at(thinner(x, space_.n_stations(), case_.thin.tolerance_mm), gradients);
  const double m = mass(x);
  e.objective = m / unit_mass_;
  if (gradients) {
    e.gradient = mass_gradient(*this, x);
    for (double &g : e.gradient) g /= unit_mass_;
  }
  for (const PlaceStress &p : places) {
    e.limits.push_back(p.share() * factor(p) - 1);
    if (!gradients) continue;
    e.limit_gradients.emplace_back(x.size(), 0.0);
    for (std::size_t i = 0; i < p.gradient.size(); ++i)
      e.limit_gradients.back()[i] = p.gradient[i] * factor(p) / p.allowed;
  }
  if (!gradients && report)
    report(model_->n_solved(), m, *std::max_element(e.limits.begin(), e.limits.end()));
  return e;
}

Optimum ThinSearch::search(const std::vector<double> &start, int max_solves, double base_sheet) {
  OptimumProblem p;
  p.variables = space_.variables;
  for (std::size_t i = 0; i < start.size(); ++i) p.variables[i].start = start[i];
  if (base_sheet > 0) p.variables[0].start = p.variables[0].low = p.variables[0].high = base_sheet;
  p.linear = space_.linear;
  p.evaluate = [this](const std::vector<double> &x, bool gradients) {
    return evaluate(x, gradients);
  };
  OptimumRules rules;
  rules.max_evaluations = max_solves;
  return smallest(p, rules);
}

double sheet_on_sale(std::vector<double> gauges, double at_least) {
  std::sort(gauges.begin(), gauges.end());
  const auto next = std::lower_bound(gauges.begin(), gauges.end(), at_least - 1e-3);
  return next == gauges.end() ? 0 : *next;
}

ThinOutcome thinnest(ThinSearch &search, const Case &c, int max_solves, Progress &progress) {
  ThinOutcome out;
  out.x = search.space().start();
  out.first_mass = search.mass(out.x);
  const std::vector<double> &gauges = c.thin.gauges_mm;
  double base_sheet = 0;
  const int rounds = 4 + static_cast<int>(gauges.size());
  for (int round = 0; round < rounds; ++round) {
    const int left = max_solves - search.model().n_solved();
    if (left < 2) break;
    const Optimum o = search.search(out.x, left, base_sheet);
    out.x = o.x;
    out.ended = o.ended;
    out.steps.insert(out.steps.end(), o.steps.begin(), o.steps.end());
    if (!gauges.empty() && base_sheet == 0) {
      // limits at the hub rarely let it be thinner than the free optimum
      base_sheet = sheet_on_sale(gauges, out.x[0]);
      if (base_sheet == 0) base_sheet = *std::max_element(gauges.begin(), gauges.end());
      progress.note("base sheet: " + std::to_string(base_sheet).substr(0, 5) + " mm");
      out.x[0] = base_sheet;
      continue;
    }
    const auto &places =
        search.model().at(thinner(out.x, search.space().n_stations(), c.thin.tolerance_mm), false);
    out.verified = verified(c, search.space(), out.x, places, out.verification, progress);
    ++out.verifications;
    const double worst = out.verified.empty() ? 0 : out.verified.front().share;
    out.passes = worst <= 1.002;
    progress.note("verified: the worst place is at " + percent(worst) + " of its limit");
    if (out.passes && worst >= 0.985) break;
    for (const VerifiedPlace &v : out.verified)
      for (const PlaceStress &p : places)
        if (p.feature == v.feature && p.test == v.test)
          search.factors[key_of(p.feature, p.test)] = v.share / p.share();
    if (out.passes && !o.feasible) break;
    if (base_sheet > 0 && !out.passes && !o.feasible) {  // no law of this sheet passes
      const double thicker = sheet_on_sale(gauges, base_sheet + 0.01);
      if (thicker == 0) break;
      progress.note("base sheet: " + std::to_string(thicker).substr(0, 5) + " mm instead");
      out.x[0] = base_sheet = thicker;
    }
  }
  out.places =
      search.model().at(thinner(out.x, search.space().n_stations(), c.thin.tolerance_mm), true);
  out.mass = search.mass(out.x);
  out.mass_gradient = mass_gradient(search, out.x);
  out.solves = search.model().n_solved();
  return out;
}

}  // namespace felloe
