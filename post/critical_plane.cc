// SPDX-License-Identifier: GPL-3.0-or-later
// Criteria that look for the worst plane: normal stress, Findley, Matake.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "post/criteria_rows.h"
#include "post/plane_kernels.h"
#include "post/stress_path.h"

namespace felloe {
namespace {

/// A question to all planes, and what its answer means at one point.
struct Search {
  PlaneSearch planes;
  std::function<EquivalentStress(const PlaneAnswers &, int point)> meaning;
};

Vec3 normal_of(const PlaneAnswers &a, int point) {
  return {a.normal[0].of[point], a.normal[1].of[point], a.normal[2].of[point]};
}

/// Component k of a point among those that the kernels take side by side.
void put(std::vector<EightValues> &values, std::size_t first, std::size_t point, const Stress &s) {
  for (int k = 0; k < 6; ++k) values[first + k].of[point % points_at_once] = s[k];
}

using Chosen = std::vector<std::size_t>;

/// Hands on the answers about those histories that are chosen.
template <class Take>
void ask(const PlaneSearch &search, const std::vector<HarmonicHistory> &histories,
         const Chosen &chosen, const Take &take) {
  std::vector<EightValues> values(18 * (points_a_call / points_at_once));
  std::vector<PlaneAnswers> answers(points_a_call / points_at_once);
  for (std::size_t first = 0; first < chosen.size(); first += points_a_call) {
    const std::size_t n = std::min<std::size_t>(points_a_call, chosen.size() - first);
    for (std::size_t i = 0; i < n; ++i) {
      const HarmonicHistory &h = histories[chosen[first + i]];
      const std::size_t eight = 18 * (i / points_at_once);
      put(values, eight, i, h.mean);
      put(values, eight + 6, i, h.cosine);
      put(values, eight + 12, i, h.sine);
    }
    plane_kernels().harmonic(search, values.data(), static_cast<int>(n), answers.data());
    for (std::size_t i = 0; i < n; ++i)
      take(chosen[first + i], answers[i / points_at_once], i % points_at_once);
  }
}

template <class Take>
void ask(const PlaneSearch &search, const std::vector<SampledHistory> &histories,
         const Chosen &chosen, const Take &take) {
  std::vector<EightValues> values, scratch;
  PlaneAnswers answers;
  for (std::size_t first = 0; first < chosen.size(); first += points_at_once) {
    const std::size_t n = std::min<std::size_t>(points_at_once, chosen.size() - first);
    const auto states_of = [&](std::size_t i) -> const std::vector<Stress> & {
      return histories[chosen[first + std::min(i, n - 1)]].states;  // the last stands for missing
    };
    std::size_t n_states = 0;
    for (std::size_t i = 0; i < n; ++i) n_states = std::max(n_states, states_of(i).size());
    values.resize(6 * n_states);
    scratch.resize(2 * n_states);
    for (std::size_t p = 0; p < points_at_once; ++p)
      for (std::size_t i = 0; i < n_states; ++i)  // a state twice changes nothing
        put(values, 6 * i, p, states_of(p)[std::min(i, states_of(p).size() - 1)]);
    plane_kernels().sampled(search, values.data(), static_cast<int>(n_states), scratch.data(),
                            answers);
    for (std::size_t i = 0; i < n; ++i) take(chosen[first + i], answers, i);
  }
}

template <class History>
std::vector<EquivalentStress> searched(const std::vector<History> &histories,
                                       const Search &search) {
  std::vector<EquivalentStress> all(histories.size());
  Chosen moving;
  for (std::size_t i = 0; i < histories.size(); ++i)
    if (alternates(histories[i])) moving.push_back(i);
  ask(search.planes, histories, moving,
      [&](std::size_t i, const PlaneAnswers &answers, std::size_t place) {
        all[i] = search.meaning(answers, static_cast<int>(place));
      });
  return all;
}

void by_rule(const double *amplitude, const double *mean, double *equivalent, int n,
             const void *constants) {
  const auto &c = *static_cast<const FatigueConstants *>(constants);
  for (int i = 0; i < n; ++i) equivalent[i] = c.mean_stress->equivalent(amplitude[i], mean[i], c);
}

// FKM has a kernel of its own.
Search normal_stress_plane(const FatigueConstants &c) {
  PlaneSearch planes{PlaneQuestion::normal_stress, c.mean_stress_sensitivity};
  if (c.mean_stress && c.mean_stress != &default_mean_stress_rule())
    planes = {PlaneQuestion::normal_stress_by_rule, 0, by_rule, &c};
  return {planes, [](const PlaneAnswers &a, int p) -> EquivalentStress {
            return {a.normal_amplitude.of[p], a.normal_mean.of[p], a.value.of[p], normal_of(a, p),
                    a.normal_amplitude.of[p]};
          }};
}

/// Shear amplitude, mean normal stress and equivalent amplitude on the governing plane. A negative
/// value (compression outweighs the shear) does no harm.
EquivalentStress on_plane(const PlaneAnswers &a, int p, double equivalent) {
  return {a.shear_amplitude.of[p], a.normal_mean.of[p], std::max(0.0, equivalent), normal_of(a, p),
          a.normal_amplitude.of[p]};
}

double largest_normal(const PlaneAnswers &a, int p) {
  return a.normal_mean.of[p] + a.normal_amplitude.of[p];
}

// max over planes (tau_a + k sn,max) <= F; k / sqrt(1 + k^2) = 2 t / f - 1. A fully reversed bar
// of amplitude s has the value s (k + sqrt(1 + k^2)) / 2.
template <PlaneQuestion question>
Search findley(const FatigueConstants &constants) {
  const double x = 2 * limit_ratio(constants) - 1, k = x / std::sqrt(1 - x * x);
  return {{question, k}, [k](const PlaneAnswers &a, int p) {
            return on_plane(a, p, a.value.of[p] / (0.5 * (k + std::sqrt(1 + k * k))));
          }};
}

// On the plane of the largest shear amplitude, of equals the one with the largest normal stress:
// tau_a + mu sn,max <= t; mu = 2 t / f - 1.
Search matake(const FatigueConstants &constants) {
  const double mu = 2 * limit_ratio(constants) - 1;
  return {{PlaneQuestion::shear}, [mu](const PlaneAnswers &a, int p) {
            const double value = a.shear_amplitude.of[p] + mu * largest_normal(a, p);
            return on_plane(a, p, value / (0.5 * (1 + mu)));
          }};
}

// On the same plane: elastic (Delta gamma / 2) G (1 + k sn,max / sy). Both limits fit k / sy =
// (2 t / f - 1) 2 / f. A fully reversed bar of amplitude s has the value s / 2 (1 + k s / (2 sy)),
// a quadratic in s.
Search fatemi_socie(const FatigueConstants &constants) {
  const double weight = (2 * limit_ratio(constants) - 1) * 2 / constants.limit_bending;
  return {{PlaneQuestion::shear}, [weight](const PlaneAnswers &a, int p) {
            const double value =
                a.shear_amplitude.of[p] * std::max(0.0, 1 + weight * largest_normal(a, p));
            return on_plane(a, p, 4 * value / (1 + std::sqrt(1 + 4 * weight * value)));
          }};
}

/// Ratio from which Findley's sum lies outside the tests that it was fitted to: R = 0.5 of a bar.
constexpr double static_ratio = 3;

bool static_stress_governs(const EquivalentStress &e, double margin = 1) {
  return e.mean > margin * static_ratio * std::max(e.amplitude, e.normal_amplitude);
}

std::string figures_of(const EquivalentStress &e) {
  return fmt::format(
      "static normal stress {:.0f} MPa on a plane with amplitudes {:.0f} (shear) and "
      "{:.0f} MPa (normal), R above 0.5: ",
      e.mean, e.amplitude, e.normal_amplitude);
}

std::string caution_of_findley(const EquivalentStress &e) {
  if (!static_stress_governs(e)) return {};
  return figures_of(e) +
         "the criterion counts static tension without limit, beyond the tests that it was fitted "
         "to; the life is on the safe side and may be far too short";
}

/// The worst plane often lies just where the limit begins: nothing is cut off there, and rounding
/// shall not decide what is said.
constexpr double beyond_the_limit = 1.01;

std::string caution_of_limited_findley(const EquivalentStress &e) {
  if (!static_stress_governs(e, beyond_the_limit)) return {};
  return figures_of(e) +
         "counted as at R = 0.5, as the FKM guideline does; no tests behind it here";
}

template <Search (*search)(const FatigueConstants &)>
FatigueCriterion row(std::string name, std::string summary, std::string source,
                     std::string (*caution)(const EquivalentStress &) = nullptr) {
  FatigueCriterion r;
  r.name = std::move(name);
  r.summary = std::move(summary);
  r.source = std::move(source);
  r.confidence = "from memory";
  r.caution = caution;
  r.many_harmonic = [](const std::vector<HarmonicHistory> &h, const FatigueConstants &c) {
    return searched(h, search(c));
  };
  r.many_sampled = [](const std::vector<SampledHistory> &h, const FatigueConstants &c) {
    return searched(h, search(c));
  };
  r.harmonic = [](const HarmonicHistory &h, const FatigueConstants &c) {
    return searched(std::vector<HarmonicHistory>{h}, search(c)).front();
  };
  r.sampled = [](const SampledHistory &h, const FatigueConstants &c) {
    return searched(std::vector<SampledHistory>{h}, search(c)).front();
  };
  return r;
}

const std::string reported =
    "; amplitude reported: shear amplitude, mean: mean normal stress of that plane";

}  // namespace

FatigueCriterion normal_stress_plane_row() {
  FatigueCriterion r = row<normal_stress_plane>(
      "normal stress plane",
      "largest fully reversed equivalent of the normal-stress amplitude over all planes, mean by "
      "the mean-stress rule; underrates phase-shifted bending and torsion; best for brittle "
      "material and cut edges",
      "definition common practice");
  r.takes_mean_stress_rule = true;
  return r;
}

FatigueCriterion limited_findley_row() {
  return row<findley<PlaneQuestion::shear_and_limited_normal>>(
      "limited Findley",
      "Findley's sum with a static normal stress of at most three times the larger amplitude on "
      "its plane: a bar beyond R = 0.5 counts as one at R = 0.5, below it nothing changes" +
          reported,
      "Findley 1959; limit: sectors of the FKM guideline, carried over to planes (own value)",
      caution_of_limited_findley);
}

FatigueCriterion findley_row() {
  return row<findley<PlaneQuestion::shear_and_normal>>(
      "Findley",
      "largest shear amplitude + k largest normal stress over all planes; counts a high static "
      "tension even where little alternates (valid up to R = 0.5)" +
          reported,
      "Findley 1959; Socie and Marquis, Multiaxial Fatigue", caution_of_findley);
}

FatigueCriterion matake_row() {
  return row<matake>("Matake",
                     "shear amplitude + mu largest normal stress on the plane of the largest shear "
                     "amplitude; jumps where two planes have equal shear" +
                         reported,
                     "Matake 1977", caution_of_findley);
}

FatigueCriterion fatemi_socie_row() {
  FatigueCriterion r = row<fatemi_socie>(
      "Fatemi-Socie",
      "shear strain amplitude times (1 + k largest normal stress / yield), elastic, on the plane "
      "of "
      "the largest shear range (not of the largest product), k fitted to both limits" +
          reported,
      "Fatemi and Socie 1988", caution_of_findley);
  r.proportional = false;
  return r;
}

}  // namespace felloe
