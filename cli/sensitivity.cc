// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sensitivity.h"

#include <algorithm>
#include <cmath>
#include <functional>

#include "cli/accuracy.h"
#include "cli/case_keys.h"
#include "cli/deciding_parts.h"
#include "cli/rating_steps.h"
#include "cli/stored_run.h"
#include "post/stored_histories.h"

namespace felloe {
namespace {

/// One thing changed: in the case, or by factors on what acts.
struct Change {
  std::string text;
  std::function<void(Case &)> in_case = [](Case &) {};
  double clamp = 1, press_fit = 1, everything = 1;
  double thickness = 1;  ///< of the disc's sheet, by the slopes
};

std::vector<Solution> on_nodes(const std::vector<Solution> &all, const std::vector<int> &nodes,
                               double factor) {
  std::vector<Solution> out(all.size());
  for (std::size_t k = 0; k < all.size(); ++k) {
    for (const int n : nodes) out[k].stress.push_back(factor * all[k].stress[n]);
    out[k].stress.emplace_back();
  }
  return out;
}

Solution on_nodes(const Solution &one, const std::vector<int> &nodes, double factor) {
  if (one.stress.empty()) return {};
  return on_nodes(std::vector<Solution>{one}, nodes, factor).front();
}

UnitSolutions changed(const UnitSolutions &u, const std::vector<int> &nodes, const Change &c) {
  UnitSolutions v;
  v.pressed = on_nodes(u.pressed, nodes, c.press_fit * c.everything);
  v.clamp = on_nodes(u.clamp, nodes, c.clamp * c.everything);
  v.inflation = on_nodes(u.inflation, nodes, c.everything);
  v.rolling = on_nodes(u.rolling, nodes, c.everything);
  v.moment_x = on_nodes(u.moment_x, nodes, c.everything);
  v.moment_y = on_nodes(u.moment_y, nodes, c.everything);
  for (const ContactTest &t : u.contact)
    v.contact.push_back({t.superposed, on_nodes(t.tight, nodes, c.everything),
                         on_nodes(t.units, nodes, c.everything)});
  return v;
}

/// The table marks classes for aluminium in their names.
bool for_aluminium(const WeldClass &w) { return w.name.find("aluminium") != std::string::npos; }

/// Classes of the weld toes next to that of the case.
void weld_class_changes(const Case &c, std::vector<Change> &all) {
  const auto [below, above] = next_weld_classes(weld_class(c.rating.weld_class));
  for (const WeldClass *w : {below, above})
    if (w)
      all.push_back(
          {"weld class " + w->name, [name = w->name](Case &v) { v.rating.weld_class = name; }});
}

/// The sheet at both ends of its tolerance; the disc is thinner or thicker in proportion.
void thickness_changes(const Case &c, std::vector<Change> &all) {
  const double sheet = c.wheel.disc.thickness.front().thickness, by = c.thin.tolerance_mm;
  if (!(by > 0) || by >= sheet) return;
  for (const double sign : {-1.0, 1.0}) {
    Change change{"sheet " + plain_number(by) + " mm " + (sign < 0 ? "thinner" : "thicker")};
    change.thickness = 1 + sign * by / sheet;
    all.push_back(change);
  }
}

/// Stresses of every place by its own factor under one rig test: of its nodes, and of the weights
/// with which weld toes read nodes of other places.
void scale_places(Analysis &a, UnitSolutions &u, const std::string &test, double thickness,
                  const StressSlopes &slopes) {
  constexpr double unset = 0;
  std::vector<double> factor(a.mesh.nodes.size(), unset);
  const auto of_place = [&](const RatedPlace &p) {
    const auto slope = slopes.find({test, p.feature});
    return slope == slopes.end() ? 1.0 : std::pow(thickness, slope->second);
  };
  auto &places = a.places.begin()->second;
  for (const RatedPlace &p : places)
    for (const int n : p.nodes) factor[n] = of_place(p);
  // nodes round a place go with it, so that gradients keep their shape
  for (const auto &cell : a.mesh.cells) {
    const auto set = std::find_if(cell.begin(), cell.end(), [&](int n) {
      return factor[n] != unset && a.mesh.node_parts[n] != Part::weld;
    });
    if (set == cell.end()) continue;
    const double of_cell = factor[*set];
    for (const int n : cell)
      if (factor[n] == unset) factor[n] = of_cell;
  }
  std::replace(factor.begin(), factor.end(), unset, 1.0);
  for (RatedPlace &p : places)
    for (ToePoint &toe : p.toe_points)
      for (std::size_t i = 0; i < toe.nodes.size(); ++i)
        toe.weights[i] = of_place(p) / factor[toe.nodes[i]] * toe.weights[i];
  const auto scale = [&](Solution &s) {
    for (std::size_t n = 0; n < s.stress.size(); ++n) s.stress[n] = factor[n] * s.stress[n];
  };
  for (auto *all : {&u.pressed, &u.clamp, &u.inflation, &u.rolling})
    for (Solution &s : *all) scale(s);
  scale(u.moment_x);
  scale(u.moment_y);
}

std::vector<Change> changes(const Analysis &a, const UnitSolutions &u, const Case &c) {
  std::vector<Change> all;
  const bool stepped = std::any_of(u.contact.begin(), u.contact.end(),
                                   [](const ContactTest &t) { return !t.superposed; });
  if (!stepped)
    for (const double f : {0.9, 1.1})
      all.push_back({f < 1 ? "rated load -10 %" : "rated load +10 %",
                     [f](Case &v) { v.rated_load_kg *= f; }});
  for (const double f : {0.8, 1.2}) {
    const std::string by = f < 1 ? " -20 %" : " +20 %";
    Change clamp{"bolt torque" + by}, press{"interference" + by};
    clamp.clamp = press.press_fit = f;
    if (!u.clamp.empty()) all.push_back(clamp);
    if (!u.pressed.empty()) all.push_back(press);
  }
  const auto other = [](const std::string &edge) -> std::string {
    return edge == "sheared" ? "reamed" : "sheared";
  };
  all.push_back({"vent edges " + other(c.rating.vent_edges),
                 [=](Case &v) { v.rating.vent_edges = other(v.rating.vent_edges); }});
  all.push_back({"bolt edges " + other(c.rating.bolt_edges),
                 [=](Case &v) { v.rating.bolt_edges = other(v.rating.bolt_edges); }});
  for (const double f : {0.5, 2.0})
    all.push_back({f < 1 ? "roughness halved" : "roughness doubled",
                   [f](Case &v) { v.rating.roughness_rz_um *= f; }});
  weld_class_changes(c, all);
  for (const double p : {50.0, 99.0})
    if (p != c.rating.survival_percent)
      all.push_back(
          {"survival " + plain_number(p) + " %", [p](Case &v) { v.rating.survival_percent = p; }});
  const double error = deciding_error(a.results);
  for (const double sign : {-1.0, 1.0}) {
    Change bar{"all stresses " + std::string(sign < 0 ? "-" : "+") +
               plain_number(std::round(10 * error) / 10) + " % (error bar)"};
    bar.everything = 1 + sign * error / 100;
    if (error > 0) all.push_back(bar);
  }
  return all;
}

std::vector<TestVerdict> rated_again(Analysis a, const Case &c, const UnitSolutions &units) {
  Progress silent(true);
  rate_all_tests(a, c, units, silent);
  return a.results.tests;
}

/// Test by test, since a place's slope differs from test to test.
std::vector<TestVerdict> rated_by_places(const Analysis &base, const Case &c,
                                         const UnitSolutions &units, double thickness,
                                         const StressSlopes &slopes) {
  std::vector<TestVerdict> all;
  for (const RigTest &test : c.tests) {
    Case one = c;
    one.tests = {test};
    Analysis a = base;
    const Held held = test.kind == RigTestKind::rotating_bending ? Held::rim : Held::hub;
    a.places = {{held, base.places.at(held)}};
    UnitSolutions scaled = units;
    scale_places(a, scaled, test.name, thickness, slopes);
    all.push_back(rated_again(std::move(a), one, scaled).front());
  }
  return all;
}

}  // namespace

std::pair<const WeldClass *, const WeldClass *> next_weld_classes(const WeldClass &now) {
  const WeldClass *below = nullptr, *above = nullptr;
  for (const WeldClass &w : weld_classes()) {
    if (!w.for_toes || for_aluminium(w) != for_aluminium(now)) continue;
    const double range = w.range_at_2e6;
    if (range < now.range_at_2e6 && (!below || range > below->range_at_2e6)) below = &w;
    if (range > now.range_at_2e6 && (!above || range < above->range_at_2e6)) above = &w;
  }
  return {below, above};
}

std::vector<Sensitivity> sensitivities(const Analysis &rated, const UnitSolutions &units,
                                       const Case &c, const StressSlopes &thickness) {
  StoredPlaces places;
  places.rated = deciding_parts(rated, units, c);
  const std::vector<int> nodes = stored_nodes(rated.mesh, places, c.rating.notch_support);
  StoredHistories small = stored_skeleton(rated.mesh, places, nodes);
  Analysis base;
  base.layout = rated.layout;
  base.mesh = std::move(small.mesh);
  base.places = std::move(small.places.rated);
  base.restored = true;
  base.gradients = c.rating.notch_support;
  std::vector<Sensitivity> all;
  std::vector<Change> listed = changes(rated, units, c);
  if (!thickness.empty()) thickness_changes(c, listed);
  for (const Change &change : listed) {
    Case v = c;
    v.gauges.clear();
    change.in_case(v);
    const UnitSolutions acting = changed(units, nodes, change);
    const std::vector<TestVerdict> verdicts =
        change.thickness == 1 ? rated_again(base, v, acting)
                              : rated_by_places(base, v, acting, change.thickness, thickness);
    for (std::size_t i = 0; i < verdicts.size(); ++i) {
      const TestVerdict &now = verdicts[i], &before = rated.results.tests[i];
      if (before.verdict == Verdict::not_rated || now.verdict == Verdict::not_rated) continue;
      Sensitivity s{change.text, now.name, now.life_design, now.life_design / before.life_design,
                    now.verdict};
      if (std::isinf(now.life_design) && std::isinf(before.life_design)) s.life_ratio = 1;
      all.push_back(s);
    }
  }
  const auto size = [](const Sensitivity &s) { return std::fabs(std::log(s.life_ratio)); };
  std::stable_sort(all.begin(), all.end(),
                   [&](const Sensitivity &a, const Sensitivity &b) { return size(a) > size(b); });
  return all;
}

std::vector<Sensitivity> sensitivities_of_run(const Analysis &a, StoredHistories histories,
                                              const Case &c) {
  if (histories.states.empty()) return {};
  const std::vector<int> nodes = std::move(histories.mesh_nodes);
  RestoredRun stored = restore_run(std::move(histories), c, c);
  stored.analysis.results = a.results;
  // What the run has rated counts, once for all nodes that are turned images of one another.
  const std::vector<int> first = first_images(a.mesh);
  for (const TestFields &f : a.fields) {
    TestFields kept{f.test, {}, f.held};
    kept.nodes.fully_reversed.resize(stored.analysis.mesh.nodes.size());
    for (std::size_t i = 0; i < nodes.size(); ++i)
      if (first[nodes[i]] == nodes[i])
        kept.nodes.fully_reversed[i] = f.nodes.fully_reversed[nodes[i]];
    stored.analysis.fields.push_back(std::move(kept));
  }
  return sensitivities(stored.analysis, stored.units, c);
}

}  // namespace felloe
