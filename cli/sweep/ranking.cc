// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sweep/ranking.h"

#include <algorithm>
#include <cctype>
#include <map>

#include "post/results.h"

namespace felloe {
namespace {

bool rated(const StoredDesign &d) { return d.figures.verdict != Verdict::not_rated; }

bool beats(const StoredDesign &a, const StoredDesign &b) {
  const DesignFigures &f = a.figures, &g = b.figures;
  const double life = a.life_margin(), other = b.life_margin();
  const bool as_good =
      f.mass_kg <= g.mass_kg && life >= other && f.tilt_Nm_per_deg >= g.tilt_Nm_per_deg;
  return as_good &&
         (f.mass_kg < g.mass_kg || life > other || f.tilt_Nm_per_deg > g.tilt_Nm_per_deg);
}

/// The text with every number as '#'.
std::string without_numbers(const std::string &text) {
  std::string plain;
  for (const char c : text) {
    const bool digit = std::isdigit(static_cast<unsigned char>(c)) || c == '.';
    if (!digit)
      plain += c;
    else if (plain.empty() || plain.back() != '#')
      plain += '#';
  }
  return plain;
}

}  // namespace

std::vector<std::size_t> computed(const SweepHead &head, const Designs &designs) {
  const Depth last = head.screened ? Depth::wheel : head.first;
  std::vector<std::size_t> all;
  for (std::size_t i = 0; i < designs.size(); ++i)
    if (designs[i].complete() && designs[i].depth == last) all.push_back(i);
  return all;
}

bool anything_rated(const Designs &designs) {
  return std::any_of(designs.begin(), designs.end(),
                     [](const StoredDesign &d) { return d.complete() && rated(d); });
}

std::vector<std::size_t> lightest(const SweepHead &head, const Designs &designs,
                                  std::size_t at_most) {
  const bool only_passed = anything_rated(designs);
  std::vector<std::size_t> best;
  for (const std::size_t i : computed(head, designs))
    if (!only_passed || designs[i].figures.verdict == Verdict::pass) best.push_back(i);
  std::stable_sort(best.begin(), best.end(), [&](std::size_t a, std::size_t b) {
    return designs[a].figures.mass_kg < designs[b].figures.mass_kg;
  });
  if (best.size() > at_most) best.resize(at_most);
  return best;
}

std::vector<std::size_t> pareto_front(const SweepHead &head, const Designs &designs) {
  auto order = computed(head, designs);
  // lightest first, the better of equals before: then only earlier designs can beat a later one
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    const DesignFigures &f = designs[a].figures, &g = designs[b].figures;
    return f.mass_kg != g.mass_kg ? f.mass_kg < g.mass_kg : beats(designs[a], designs[b]);
  });
  std::vector<std::size_t> front;
  for (const std::size_t i : order)
    if (std::none_of(front.begin(), front.end(),
                     [&](std::size_t f) { return beats(designs[f], designs[i]); }))
      front.push_back(i);
  // two designs of one mass may have come in either order
  front.erase(std::remove_if(front.begin(), front.end(),
                             [&](std::size_t i) {
                               return std::any_of(front.begin(), front.end(), [&](std::size_t f) {
                                 return beats(designs[f], designs[i]);
                               });
                             }),
              front.end());
  return front;
}

std::vector<FailureReason> failure_reasons(const Designs &designs) {
  std::map<std::string, FailureReason> found;
  for (const StoredDesign &d : designs) {
    if (d.state != JobState::failed) continue;
    FailureReason &r = found[without_numbers(d.reason)];
    if (r.count++ == 0) r.example = d.reason, r.design = d.id;
  }
  std::vector<FailureReason> all;
  for (auto &[key, reason] : found) all.push_back(std::move(reason));
  std::stable_sort(all.begin(), all.end(), [](const FailureReason &a, const FailureReason &b) {
    return a.count > b.count;
  });
  return all;
}

std::vector<std::string> sweep_cautions(const Designs &designs) {
  std::vector<std::string> all = standing_cautions();
  all.push_back(
      "Designs of a sweep carry no error bars: run those that you choose before you compare what "
      "differs by a few per cent.");
  const auto screened = [](const StoredDesign &d) {
    return d.complete() && d.depth == Depth::section;
  };
  if (std::any_of(designs.begin(), designs.end(), screened))
    all.push_back(
        "Designs of depth 'section' are screened, not rated: vents count by closed formulas, which "
        "can be a third low, bolt holes do not count. Compute those that you choose as a wheel.");
  return all;
}

}  // namespace felloe
