// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/picture_files.h"

#include <algorithm>
#include <cmath>
#include <filesystem>

#include "cli/field_files.h"
#include "cli/load_sketch.h"
#include "post/colours.h"
#include "post/pictures.h"
#include "post/rated_nodes.h"
#include "post/worst_first.h"

namespace felloe {
namespace {

/// "2.1e5" of 212345.
std::string rounded(double cycles) {
  if (std::isinf(cycles)) return "infinite";
  char text[32];
  std::snprintf(text, sizeof text, "%.2g", cycles);
  std::string number = text;
  const auto plus = number.find("e+");
  if (plus != std::string::npos) {
    number.erase(plus + 1, 1);
    while (number[plus + 1] == '0') number.erase(plus + 1, 1);
  }
  return number;
}

std::string megapascals(double stress) { return std::to_string(std::lround(stress)) + " MPa"; }

/// Beyond what a curve can tell it is the size that counts.
constexpr double countless = 1e10;

Marker marker_of(const HotSpot &spot) {
  Marker m;
  m.number = spot.id;
  m.position = spot.position;
  m.place = spot.feature;
  const bool says_more =
      spot.side == "outboard" || spot.side == "inboard" || spot.side == "tyre side" ||
      (spot.part == Part::rim && spot.side == "inner side" && spot.feature.rfind("weld", 0) != 0);
  if (says_more && spot.feature.find(spot.side) == std::string::npos) m.place += ", " + spot.side;
  m.verdict = spot.verdict;
  m.figure = megapascals(spot.amplitude);
  if (spot.verdict == Verdict::not_rated) {
    m.facts = {spot.criterion + " " + m.figure};
    return m;
  }
  const std::string used = std::to_string(std::lround(100 * utilisation(spot))) + " %",
                    life = spot.life_design > countless && !std::isinf(spot.life_design)
                               ? "above 1e10"
                               : rounded(spot.life_design);
  m.figure = used + ", " + (std::isinf(spot.life_design) ? "infinite life" : life + " cycles");
  m.facts = {used + " of the allowed stress",
             "cycles: " + life + ", required " + rounded(spot.required_cycles),
             "amplitude " + megapascals(spot.amplitude) + ", mean " + megapascals(spot.mean)};
  if (spot.error_percent >= 0)
    m.facts.push_back("stress known within \u00B1" + rounded(spot.error_percent) + " %");
  m.facts.push_back("counts as " + megapascals(spot.fully_reversed) + " fully reversed (" +
                    spot.criterion + "); allowed " + megapascals(spot.allowed));
  m.facts.push_back("curve: " + spot.curve);
  return m;
}

/// The scale that all pictures share: of rated wheels that of all wheels, else up to the largest
/// stress.
ColourScale colour_scale(const Results &r) {
  ColourScale scale;
  if (!r.tests.empty()) return {"share of the allowed stress", "%", 100, "fails"};
  scale.quantity = "von Mises stress";
  double largest = 0;
  for (const HotSpot &spot : r.hot_spots) largest = std::max(largest, spot.amplitude);
  if (largest > 0) scale.maximum = round_scale_end(largest);
  return scale;
}

/// Which of them cracks first is then a matter of scatter.
void say_near_ties(const Results &r, const std::string &test, std::vector<Marker> &markers) {
  constexpr double near = 0.95;
  const HotSpot *worst = worst_of(r.hot_spots, test);
  if (!worst || !(utilisation(*worst) > 0)) return;
  const auto n = std::count_if(r.hot_spots.begin(), r.hot_spots.end(), [&](const HotSpot &h) {
    return h.test == test && h.id != worst->id && utilisation(h) > near * utilisation(*worst);
  });
  if (n > 0)
    markers.front().facts.front() +=
        "; " + std::to_string(n) + (n == 1 ? " more place" : " more places") + " close to it";
}

std::vector<int> marker_of_node(const Analysis &a, const TestFields &shown) {
  std::vector<int> numbers(a.mesh.nodes.size(), 0);
  const auto places = a.places.find(shown.held);
  if (places == a.places.end()) return numbers;
  for (const RatedPlace &place : places->second)
    for (const HotSpot &spot : a.results.hot_spots)
      if (spot.test == shown.test && spot.feature == place.feature)
        in_all_sectors(a.mesh, place.nodes, [&](int node) { numbers[node] = spot.id; });
  return numbers;
}

PictureSet picture_set(const Analysis &a, const Case &c, const TestFields &shown,
                       const std::string &folder) {
  PictureSet set;
  set.values = shown.utilisation.empty() ? &shown.nodes.amplitude : &shown.utilisation;
  set.lines = shown.toes;
  set.folder = folder;
  set.prefix = file_stem(shown.test) + "_";
  set.scale = colour_scale(a.results);
  set.title = a.results.title;
  set.load = shown.test;
  set.why_grey = why_grey(shown.held);
  for (const HotSpot &spot : a.results.hot_spots)
    if (spot.test == shown.test) set.markers.push_back(marker_of(spot));
  say_near_ties(a.results, shown.test, set.markers);
  set.marker_of_node = marker_of_node(a, shown);
  for (const TestVerdict &t : a.results.tests)
    if (t.name == shown.test) {
      set.load += ": " + t.kind + ", " + std::to_string(std::lround(t.load)) + " " + t.load_unit;
      set.verdict = t.verdict;
      set.sketch = load_sketch(a, c, t);
    }
  if (a.results.tests.empty()) set.sketch = load_sketch(a, c, shown.test);
  if (!shown.displacement.empty()) set.deformed = {&shown.displacement, shown.state, 0};
  return set;
}

/// One scale for the displacements of all sets.
void share_displacement_scale(std::vector<PictureSet> &sets) {
  double largest = 0;
  for (const PictureSet &set : sets)
    if (set.deformed.displacement != nullptr)
      for (const Vec3 &u : *set.deformed.displacement) largest = std::max(largest, norm(u));
  if (largest > 0)
    for (PictureSet &set : sets) set.deformed.colour_maximum = round_scale_end(largest);
}

}  // namespace

std::string why_grey(Held held) {
  return held == Held::plate ? "held edges and beside them"
         : held == Held::rim ? "weld between its toes, hub face, clamped flange, sheet ends"
                             : "weld between its toes, hub face, sheet ends";
}

std::string draw_pictures(Analysis &a, const Case &c, const std::string &folder,
                          const Jobs &besides) {
  std::vector<std::vector<bool>> judged;
  std::vector<PictureSet> sets;
  for (const TestFields &shown : a.fields) {
    const auto places = a.places.find(shown.held);
    judged.push_back(places == a.places.end() ? std::vector<bool>(a.mesh.nodes.size(), true)
                                              : judged_nodes(a.mesh, places->second));
    sets.push_back(picture_set(a, c, shown, folder + "/pictures"));
  }
  for (std::size_t i = 0; i < sets.size(); ++i) sets[i].rated = &judged[i];
  share_displacement_scale(sets);
  const auto drawn = draw_picture_sets(a.mesh, sets, besides);
  for (std::size_t i = 0; i < sets.size(); ++i)
    for (const Picture &p : drawn[i])
      a.results.pictures.push_back({"pictures/" + std::filesystem::path(p.file).filename().string(),
                                    a.fields[i].test, p.view, p.alt, p.shows_worst});
  const ColourScale scale = colour_scale(a.results);
  a.results.colour_scale = {scale.quantity, scale.unit, scale.maximum};
  return std::to_string(a.results.pictures.size()) + " pictures";
}

}  // namespace felloe
