// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/fit_report.h"

#include <fmt/format.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <set>

#include "cli/case_keys.h"
#include "post/summary.h"
#include "post/tolerance_factors.h"

namespace felloe {
namespace {

using Json = nlohmann::ordered_json;

Json number(double value) { return std::isfinite(value) ? Json(value) : Json(nullptr); }

const char *law(const LivesFit &f) {
  return f.distribution == LifeScatter::weibull ? "Weibull" : "lognormal";
}

std::string figure(double value) {
  return std::isfinite(value) ? fmt::format("{:.4g}", value) : "open";
}

std::string between(const Bounds &b) { return figure(b.low) + " to " + figure(b.high); }

std::set<double> levels(const std::vector<RigLife> &lives) {
  std::set<double> all;
  for (const RigLife &life : lives) all.insert(life.load);
  return all;
}

/// Standard deviation divided by n - 2 instead of n, as tolerance factors want it.
double sample_deviation(const LivesFit &f) {
  const double n = f.failures + f.run_outs;
  return f.deviation() * std::sqrt(n / (n - 2));
}

double tolerance(const FitReport &r) {
  return tolerance_factor(r.fit.failures, r.survival, r.fit.confidence);
}

std::string comparison(const FitReport &r) {
  if (!r.has_other) return "";
  const double gain = r.fit.log_likelihood - r.other.log_likelihood;
  return fmt::format("  {} instead would be {} likely: log-likelihood {:+.2f} (slope {:.3g})\n",
                     law(r.other), gain >= 0 ? "less" : "more", -gain, r.other.slope);
}

}  // namespace

std::string fit_text(const FitReport &r) {
  const LivesFit &f = r.fit;
  const double p = 100 * r.survival, c = 100 * f.confidence;
  std::string out = fmt::format(
      "{}: {} failures, {} run-outs, {} {:g} to {:g} {}\n\n{} lives, maximum likelihood with "
      "run-outs\n",
      r.file, f.failures, f.run_outs, r.load.what, f.smallest_load, f.largest_load, r.load.unit,
      f.distribution == LifeScatter::weibull ? "Weibull" : "Lognormal");
  out += fmt::format("  slope k             {:<10.4g} {:g} %: {}  (likelihood ratio)\n", f.slope, c,
                     between(f.slope_bounds));
  out += fmt::format("  deviation of lg N   {:<10.4g} {:g} %: {}  (delta method)\n", f.deviation(),
                     c, between(f.deviation_bounds));
  if (f.distribution == LifeScatter::weibull)
    out += fmt::format("  Weibull shape       {:<10.4g}\n", 1 / (f.scale * std::log(10.0)));
  out += comparison(r);
  out += fmt::format("\n  {:>12} {:>11} {:>11}   {}\n", r.load.unit, "life 50 %",
                     fmt::format("life {:g} %", p),
                     fmt::format("{:g} % bounds of the {:g} % life (likelihood ratio)", c, p));
  for (const double load : levels(r.lives)) {
    const Bounds b = life_bounds(f, r.lives, load, r.survival);
    out += fmt::format(
        "  {:>12.5g} {:>11} {:>11}   {} to {}\n", load, cycles_text(life_at(f, load, 0.5)),
        cycles_text(life_at(f, load, r.survival)), cycles_text(b.low), cycles_text(b.high));
  }
  out += fmt::format("\n  load for {} cycles: {:.4g} {} at 50 %, {:.4g} {} at {:g} % survival\n",
                     cycles_text(f.largest_cycles), load_at(f, f.largest_cycles, 0.5), r.load.unit,
                     load_at(f, f.largest_cycles, r.survival), r.load.unit, p);
  const double k = tolerance(r);
  out += fmt::format(
      "  one-sided tolerance factor k({}, {:g} %, {:g} %) = {:.4g}: design line {:.3g} decades of "
      "life below\n  the median line ({})\n",
      f.failures, p, c, k, k * sample_deviation(f),
      f.run_outs > 0 || levels(r.lives).size() > 1
          ? "an indication: exact for complete samples at one load"
          : "exact for normal lg N");
  return out;
}

std::string fit_json(const FitReport &r) {
  const LivesFit &f = r.fit;
  Json at = Json::array();
  for (const double load : levels(r.lives)) {
    const Bounds b = life_bounds(f, r.lives, load, r.survival);
    at.push_back({{"load", load},
                  {"life_p50", number(life_at(f, load, 0.5))},
                  {"life_design", number(life_at(f, load, r.survival))},
                  {"life_design_bounds", {number(b.low), number(b.high)}}});
  }
  const Json json = {
      {"kind", "S-N line"},
      {"lives", r.file},
      {"load", {{"column", r.load.column}, {"unit", r.load.unit}}},
      {"scatter", law(f)},
      {"failures", f.failures},
      {"run_outs", f.run_outs},
      {"reference_load", f.reference},
      {"log10_life_at_reference", number(f.a)},
      {"slope", number(f.slope)},
      {"slope_bounds", {number(f.slope_bounds.low), number(f.slope_bounds.high)}},
      {"log10_life_scatter", number(f.deviation())},
      {"log10_life_scatter_bounds",
       {number(f.deviation_bounds.low), number(f.deviation_bounds.high)}},
      {"bounds", "slope and lives by likelihood ratio, scatter by the delta method"},
      {"log_likelihood", number(f.log_likelihood)},
      {"log_likelihood_other_law", r.has_other ? number(r.other.log_likelihood) : Json(nullptr)},
      {"survival_percent", 100 * r.survival},
      {"confidence_percent", 100 * f.confidence},
      {"tolerance_factor", number(tolerance(r))},
      {"levels", at}};
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::string staircase_text(const StaircaseEvaluation &e, const std::vector<StaircaseTest> &tests,
                           const std::string &file, const LoadUnit &load, double survival,
                           double confidence) {
  const double p = 100 * survival, c = 100 * confidence;
  const double k = tolerance_factor(e.events, survival, confidence);
  std::string out = fmt::format("{}: staircase of {} tests, step {:g} {}\n\n", file, tests.size(),
                                e.step, load.unit);
  out += fmt::format("  Dixon and Mood       mean {:.5g} {}, deviation {:.4g}{}\n",
                     e.dixon_mood.mean, load.unit, e.dixon_mood.deviation,
                     e.bracket < 0.3 ? " (a guess: 0.53 steps, too few levels)" : "");
  out += fmt::format("    from the rarer event, {} {}\n", e.events,
                     e.by_failures ? "failures" : "run-outs");
  out += e.likelihood_found
             ? fmt::format("  maximum likelihood   mean {:.5g} {}, deviation {:.4g}\n",
                           e.likelihood.mean, load.unit, e.likelihood.deviation)
             : "  maximum likelihood   no answer: no failure lies below a run-out\n";
  out += fmt::format(
      "\n  one-sided tolerance factor k({}, {:g} %, {:g} %) = {:.4g}: {:g} % survive {:.4g} {}\n",
      e.events, p, c, k, p, e.dixon_mood.mean - k * e.dixon_mood.deviation, load.unit);
  return out;
}

std::string staircase_json(const StaircaseEvaluation &e, const std::string &file,
                           const LoadUnit &load, double survival, double confidence) {
  const double k = tolerance_factor(e.events, survival, confidence);
  const Json likelihood =
      e.likelihood_found ? Json{{"mean", e.likelihood.mean}, {"deviation", e.likelihood.deviation}}
                         : Json(nullptr);
  const Json json = {
      {"kind", "staircase"},
      {"lives", file},
      {"load", {{"column", load.column}, {"unit", load.unit}}},
      {"step", e.step},
      {"rarer_event", e.by_failures ? "failures" : "run-outs"},
      {"events", e.events},
      {"bracket", e.bracket},
      {"dixon_mood", {{"mean", e.dixon_mood.mean}, {"deviation", e.dixon_mood.deviation}}},
      {"maximum_likelihood", likelihood},
      {"survival_percent", 100 * survival},
      {"confidence_percent", 100 * confidence},
      {"tolerance_factor", k},
      {"design_load", e.dixon_mood.mean - k * e.dixon_mood.deviation}};
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::string curve_section(const CurveInput &curve) {
  Case c;
  c.curves = {curve};
  std::string out = "[[sn_curve]]\n";
  for (const Section &section : curve_sections())
    for (const Key &key : section.keys) {
      const Value value = key.place(c, 0).get();
      if (key.need == Need::may_be_absent && is_unset(value)) continue;
      out += key.name + " = " + toml_text(value) + "\n";
    }
  return out;
}

}  // namespace felloe
