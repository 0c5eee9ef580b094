// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/surface_loads.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "cli/picture_files.h"
#include "post/colours.h"
#include "post/rated_nodes.h"
#include "post/report/words.h"

namespace felloe {
namespace {

/// Finite values where the stress may be judged; rated: as in SurfaceLoad.
std::vector<double> known_values(const std::vector<double> &values,
                                 const std::vector<double> &rated) {
  std::vector<double> known;
  for (std::size_t n = 0; n < values.size(); ++n)
    if (std::isfinite(values[n]) && (rated.empty() || rated[n] > 0)) known.push_back(values[n]);
  return known;
}

SurfaceQuantity amplitude(const std::vector<double> &values, const std::vector<double> &rated,
                          const std::string &name, double high) {
  SurfaceQuantity q{name, "MPa", &values, 0, high > 0 ? high : scale_end(values), false, false, ""};
  const auto known = known_values(values, rated);
  if (!known.empty())
    q.remark = fmt::format("largest {:.4g} MPa", *std::max_element(known.begin(), known.end()));
  return q;
}

SurfaceQuantity share_of_allowed(const std::vector<double> &values,
                                 const std::vector<double> &rated) {
  SurfaceQuantity q{"share of the allowed stress", "%", &values, 0, 100, false, false, ""};
  const auto known = known_values(values, rated);
  if (!known.empty())
    q.remark = fmt::format("over 100 fails; largest {:.3g} % (weld toes: see the list)",
                           *std::max_element(known.begin(), known.end()));
  return q;
}

/// From below zero, where there is compression, to above.
SurfaceQuantity mean(const std::vector<double> &values, const std::vector<double> &rated) {
  SurfaceQuantity q{"mean stress", "MPa", &values, 0, scale_end(values), false, false, ""};
  std::vector<double> turned;
  for (const double v : values) turned.push_back(-v);
  const auto known = known_values(values, rated);
  if (known.empty()) return q;
  const auto [low, high] = std::minmax_element(known.begin(), known.end());
  if (*low < 0) q.low = -scale_end(turned);
  q.remark = fmt::format("from {:.4g} to {:.4g} MPa", *low, *high);
  return q;
}

std::string life_text(double cycles) {
  return cycles_words(cycles) + (std::isinf(cycles) ? "" : " cycles");
}

SurfaceQuantity life(const std::vector<double> &values, const std::vector<double> &rated) {
  const auto [low, high] = life_scale(values);
  SurfaceQuantity q{"design life", "cycles", &values, low, high, true, true, ""};
  const auto known = known_values(values, rated);
  if (!known.empty())
    q.remark = "shortest " + life_text(*std::min_element(known.begin(), known.end()));
  return q;
}

SurfaceSpot rated_spot(const HotSpot &h) {
  const bool rated = utilisation(h) > 0;
  SurfaceSpot spot{h.id,
                   h.position,
                   rated ? fmt::format("{}, {:.0f} %", h.feature, 100 * utilisation(h))
                         : fmt::format("{}, {:.0f} MPa", h.feature, h.amplitude),
                   {}};
  const auto add = [&](const char *name, const std::string &value) {
    spot.rows.push_back({name, value});
  };
  if (rated) add("share of the allowed stress", fixed_text(100 * utilisation(h), 1) + " %");
  add("stress amplitude", fixed_text(h.amplitude, 1) + " MPa");
  add("mean stress", fixed_text(h.mean, 1) + " MPa");
  add("fully reversed", fixed_text(h.fully_reversed, 1) + " MPa");
  if (h.error_percent >= 0) add("error of the stress", fixed_text(h.error_percent, 1) + " %");
  if (h.verdict != Verdict::not_rated) {
    add("life, half of all wheels", life_text(h.life_p50));
    add("design life", life_text(h.life_design));
    add("required", life_text(h.required_cycles));
  }
  add("verdict", verdict_text(h.verdict));
  add("side", h.side);
  add("rated by", h.criterion);
  add("curve", h.curve);
  return spot;
}

}  // namespace

std::vector<SurfaceLoad> surface_loads(const Analysis &a) {
  double end = 0;  // of stresses, the same for all tests
  for (const HotSpot &h : a.results.hot_spots) end = std::max(end, h.amplitude);
  if (end > 0) end = round_scale_end(end);
  std::vector<SurfaceLoad> loads;
  for (std::size_t i = 0; i < a.fields.size(); ++i) {
    const TestFields &f = a.fields[i];
    SurfaceLoad load{f.test, "", {}, {}};
    const auto places = a.places.find(f.held);
    if (places != a.places.end()) {
      const std::vector<bool> judged = judged_nodes(a.mesh, places->second);
      load.rated.assign(judged.begin(), judged.end());
      load.why_grey = why_grey(f.held);
    }
    for (const TestVerdict &t : a.results.tests)
      if (t.name == f.test) load.load = fmt::format("{:.0f} {}", t.load, t.load_unit);
    if (!f.utilisation.empty())
      load.quantities.push_back(share_of_allowed(f.utilisation, load.rated));
    load.quantities.push_back(
        amplitude(f.nodes.amplitude, load.rated,
                  a.results.tests.empty() ? "von Mises stress" : "stress amplitude", end));
    if (!f.nodes.mean.empty()) load.quantities.push_back(mean(f.nodes.mean, load.rated));
    if (!f.nodes.life.empty()) load.quantities.push_back(life(f.nodes.life, load.rated));
    for (const HotSpot &h : a.results.hot_spots)
      if (h.test == f.test) load.spots.push_back(rated_spot(h));
    loads.push_back(std::move(load));
  }
  return loads;
}

}  // namespace felloe
