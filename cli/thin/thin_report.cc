// SPDX-License-Identifier: GPL-3.0-or-later
// What `felloe thin` found, for people and for programs.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "cli/test_turns.h"
#include "cli/thin/thin.h"
#include "cli/thin/thinnest.h"
#include "post/summary.h"

namespace felloe {
namespace {

/// The place nearest to its limit by the verification; on the coarse mesh, with gradient.
const PlaceStress *deciding(const ThinOutcome &out) {
  for (const VerifiedPlace &v : out.verified)
    for (const PlaceStress &p : out.places)
      if (p.feature == v.feature && p.test == v.test && !p.gradient.empty()) return &p;
  return nullptr;
}

/// Factor on the life of a place when variable i grows by `change`; slope of the S-N curve `k`.
double life_factor(const PlaceStress &p, std::size_t i, double change, double k) {
  const double stress = p.stress + change * p.gradient[i];
  return std::pow(p.stress / std::max(stress, 1e-6), k);
}

double slope_of(const Case &c, const PlaceStress &p) {
  const bool toe = p.feature.rfind("weld toe", 0) == 0;
  return curve_for(rating_rules(c), toe ? Surface::weld_toe : Surface::parent, Part::disc).slope;
}

constexpr double tenth = 0.1;  // mm

/// The place whose life grows most in relation, among those at 95 % of their limit or more.
struct Buys {
  std::string feature, test;
  double factor = 1;
};

Buys best_buy(const Case &c, const ThinOutcome &out, std::size_t i) {
  Buys best;
  for (const PlaceStress &p : out.places) {
    if (p.gradient.empty() || p.share() < 0.9) continue;
    const double factor = life_factor(p, i, tenth, slope_of(c, p));
    if (factor > best.factor) best = {p.feature, p.test, factor};
  }
  return best;
}

}  // namespace

std::string thin_summary(const Case &c, const DesignSpace &space, const ThinOutcome &out,
                         double density) {
  std::string text = fmt::format(
      "{}  disc and weld {:.3f} kg, {:+.1f} % against the case\n\n"
      "searched at density {:g} in {} solves ({}), verified {} times at density {:g} with error "
      "bars,\nall disc sheet thinner by its tolerance of {:g} mm\n\n",
      out.passes ? "PASS" : "FAIL", out.mass, 100 * (out.mass / out.first_mass - 1), density,
      out.solves, out.ended, out.verifications, c.mesh.density, c.thin.tolerance_mm);
  const PlaceStress *worst = deciding(out);
  text +=
      "Thickness along the meridian, and what +0.1 mm at the station buys\n"
      "      s      r      t      mass  life of the deciding place  most life at\n";
  for (std::size_t i = 0; i < space.n_stations(); ++i) {
    const Buys buys = best_buy(c, out, i);
    text += fmt::format(
        "{:7.1f}{:7.1f}{:7.2f}  {:+6.1f} g  {:>26}  {}\n", space.station_s[i], space.station_r[i],
        out.x[i], 1e3 * tenth * out.mass_gradient[i],
        worst ? fmt::format("x {:.2f}", life_factor(*worst, i, tenth, slope_of(c, *worst))) : "?",
        buys.feature.empty()
            ? "nowhere near its limit"
            : fmt::format("{}, {}: x {:.2f}", buys.feature, buys.test, buys.factor));
  }
  for (std::size_t i = space.n_stations(); i < out.x.size(); ++i)
    text += fmt::format("  {}: {:.2f} mm\n", space.variables[i].name, out.x[i]);
  text += "\nPlaces nearest to their limit   (stress with error bar over the allowed one)\n";
  for (std::size_t k = 0; k < std::min<std::size_t>(6, out.verified.size()); ++k) {
    const VerifiedPlace &v = out.verified[k];
    text += fmt::format("  {:5.1f} %  {:<22} {:<12} {:.0f} MPa +-{:.1f} %, allowed {:.0f}\n",
                        100 * v.share, v.feature, v.test, v.stress, v.error_percent, v.allowed);
  }
  return text + caution_text(out.verification.cautions, false);
}

std::string thin_json(const Case &c, const DesignSpace &space, const ThinOutcome &out,
                      double density) {
  using nlohmann::json;
  json j;
  j["passes"] = out.passes;
  j["disc_and_weld_kg"] = out.mass;
  j["disc_and_weld_before_kg"] = out.first_mass;
  j["search"] = {{"density", density},
                 {"solves", out.solves},
                 {"ended", out.ended},
                 {"verifications", out.verifications},
                 {"tolerance_mm", c.thin.tolerance_mm}};
  for (const OptimumStep &s : out.steps)
    j["search"]["steps"].push_back(
        {{"variables", s.x}, {"mass_over_start", s.objective}, {"worst_limit", s.worst_limit}});
  for (std::size_t i = 0; i < out.x.size(); ++i) {
    json v = {{"name", space.variables[i].name},
              {"value_mm", out.x[i]},
              {"kg_per_mm", out.mass_gradient[i]}};
    if (i < space.n_stations()) {
      v["s_mm"] = space.station_s[i];
      v["r_mm"] = space.station_r[i];
    }
    for (const PlaceStress &p : out.places)
      if (!p.gradient.empty())
        v["stress"].push_back(
            {{"feature", p.feature},
             {"test", p.test},
             {"MPa", p.stress},
             {"MPa_per_mm", p.gradient[i]},
             {"life_factor_of_a_tenth", life_factor(p, i, tenth, slope_of(c, p))}});
    j["variables"].push_back(v);
  }
  for (const VerifiedPlace &v : out.verified)
    j["verified"].push_back({{"feature", v.feature},
                             {"test", v.test},
                             {"stress_MPa", v.stress},
                             {"error_percent", v.error_percent},
                             {"allowed_MPa", v.allowed},
                             {"share", v.share}});
  j["cautions"] = out.verification.cautions;
  return j.dump(2) + "\n";
}

}  // namespace felloe
