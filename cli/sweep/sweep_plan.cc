// SPDX-License-Identifier: GPL-3.0-or-later
// From a sweep file to complete cases.
#include <algorithm>

#include "cli/case_file.h"
#include "cli/sweep/sampling.h"
#include "cli/sweep/sweep_file.h"
#include "mesher/error.h"

namespace felloe {
namespace {

using Values = std::vector<Value>;

/// All combinations; the last key changes fastest.
std::vector<Values> full_grid(const std::vector<SweptKey> &keys) {
  std::vector<Values> all = {{}};
  for (const SweptKey &k : keys) {
    std::vector<Values> longer;
    for (const Values &begun : all)
      for (const Value &v : grid_values(k)) {
        longer.push_back(begun);
        longer.back().push_back(v);
      }
    all = std::move(longer);
  }
  return all;
}

std::vector<Values> values_at(const std::vector<SweptKey> &keys,
                              const std::vector<CubePoint> &points) {
  std::vector<Values> all;
  for (const CubePoint &p : points) {
    Values values;
    for (std::size_t k = 0; k < keys.size(); ++k) values.push_back(value_at(keys[k], p[k]));
    all.push_back(std::move(values));
  }
  return all;
}

std::vector<Values> chosen(const SweepFile &sweep) {
  const int n = int(sweep.keys.size());
  switch (sweep.kind) {
    case PlanKind::list:
      return sweep.list;
    case PlanKind::latin_hypercube:
      return values_at(sweep.keys, latin_hypercube(sweep.designs, n, std::uint64_t(sweep.seed)));
    case PlanKind::random:
      return values_at(sweep.keys, random_points(sweep.designs, n, std::uint64_t(sweep.seed)));
    case PlanKind::sobol:
      return values_at(sweep.keys, sobol_points(sweep.designs, n));
    default:
      return full_grid(sweep.keys);
  }
}

double number_of(const Value &v) {
  if (const auto *i = std::get_if<int>(&v)) return *i;
  return std::get<double>(v);
}

bool allowed(const SweepFile &sweep, const Values &values) {
  for (const Requirement &r : sweep.requirements) {
    double sum = 0;
    for (const auto &[key, factor] : r.sum) sum += factor * number_of(values[key]);
    const double slack = 1e-9 * std::max(1.0, std::abs(sum));
    if (sum < r.at_least - slack || sum > r.at_most + slack) return false;
  }
  return true;
}

PlannedDesign planned(const SweepFile &sweep, const Values &values) {
  Case c = sweep.base;
  for (std::size_t k = 0; k < values.size(); ++k) apply_value(c, sweep.keys[k], values[k]);
  PlannedDesign d{values, resolved_case(c), ""};
  try {
    read_case_text(d.case_text, "the design");
  } catch (const Error &e) {
    const std::string text = e.what();  // the first line only counts the problems
    const auto first = text.find('\n');
    d.problem = first == std::string::npos ? text : text.substr(first + 1);
  }
  return d;
}

}  // namespace

SweepPlan plan_of(const SweepFile &sweep, const std::string &path) {
  SweepPlan plan;
  SweepHead &h = plan.head;
  h.title = sweep.title.empty() ? sweep.base.title : sweep.title;
  h.sweep_file = path;
  h.sweep_text = sweep.text;
  h.case_file = sweep.case_path;
  for (const SweptKey &k : sweep.keys) {
    const char *form = k.apply == Apply::add ? " +" : k.apply == Apply::multiply ? " x" : "";
    h.keys.push_back(k.name + form);
    h.units.push_back(k.apply == Apply::multiply ? "" : k.unit);
  }
  h.first = sweep.first;
  h.screened = sweep.screened;
  h.screen_utilisation = sweep.screen_utilisation;
  h.workers = sweep.workers;
  h.shared_disk = sweep.shared_disk;
  bool one_can_exist = false;
  for (const Values &values : chosen(sweep)) {
    if (!allowed(sweep, values)) {
      ++plan.left_out;
      continue;
    }
    plan.designs.push_back(planned(sweep, values));
    one_can_exist = one_can_exist || plan.designs.back().problem.empty();
  }
  if (plan.designs.empty())
    throw Error(path + ": [[require]] leaves none of the " + std::to_string(plan.left_out) +
                " designs; widen its bounds");
  if (!one_can_exist)
    throw Error(path + ": none of the " + std::to_string(plan.designs.size()) +
                " designs is a valid case; the first one says: " + plan.designs[0].problem);
  return plan;
}

}  // namespace felloe
