// SPDX-License-Identifier: GPL-3.0-or-later
// Criteria that look for the worst plane: normal stress, Findley, Matake.
#include <algorithm>
#include <cmath>

#include "post/criteria_rows.h"
#include "post/plane_kernels.h"
#include "post/stress_path.h"

namespace felloe {
namespace {

/// A question to all planes, and what its answer means at one point.
struct PlaneSearch {
  PlaneQuestion question;
  double weight;  ///< of the question
  std::function<EquivalentStress(const PlaneAnswers &, int point)> meaning;
};

Vec3 normal_of(const PlaneAnswers &a, int point) {
  return {a.normal[0].of[point], a.normal[1].of[point], a.normal[2].of[point]};
}

/// Eight histories as the kernels read them; the last stands for missing ones.
class Eight {
 public:
  void take(const HarmonicHistory *histories, std::size_t n) {
    values_.resize(18);
    for (int p = 0; p < points_at_once; ++p) {
      const HarmonicHistory &h = histories[std::min<std::size_t>(p, n - 1)];
      put(h.mean, 0, p);
      put(h.cosine, 6, p);
      put(h.sine, 12, p);
    }
  }
  void take(const SampledHistory *histories, std::size_t n) {
    n_states_ = 0;
    for (std::size_t i = 0; i < n; ++i) n_states_ = std::max(n_states_, histories[i].states.size());
    values_.resize(6 * n_states_);
    scratch_.resize(2 * n_states_);
    for (int p = 0; p < points_at_once; ++p) {
      const auto &states = histories[std::min<std::size_t>(p, n - 1)].states;
      for (std::size_t i = 0; i < n_states_; ++i)  // a state twice changes nothing
        put(states[std::min(i, states.size() - 1)], 6 * i, p);
    }
  }
  void ask(const PlaneSearch &s, const HarmonicHistory *, PlaneAnswers &answers) {
    plane_kernels().harmonic(plane_grid(), s.question, s.weight, values_.data(), answers);
  }
  void ask(const PlaneSearch &s, const SampledHistory *, PlaneAnswers &answers) {
    plane_kernels().sampled(plane_grid(), s.question, s.weight, values_.data(),
                            static_cast<int>(n_states_), scratch_.data(), answers);
  }

 private:
  void put(const Stress &s, std::size_t first, int point) {
    for (int k = 0; k < 6; ++k) values_[first + k].of[point] = s[k];
  }
  std::vector<EightValues> values_, scratch_;
  std::size_t n_states_ = 0;
};

template <class History>
std::vector<EquivalentStress> searched(const std::vector<History> &histories,
                                       const PlaneSearch &search) {
  std::vector<EquivalentStress> all(histories.size());
  Eight eight;
  PlaneAnswers answers;
  for (std::size_t first = 0; first < histories.size(); first += points_at_once) {
    const std::size_t n = std::min<std::size_t>(points_at_once, histories.size() - first);
    std::array<bool, points_at_once> moves{};
    for (std::size_t i = 0; i < n; ++i) moves[i] = alternates(histories[first + i]);
    if (std::none_of(moves.begin(), moves.end(), [](bool m) { return m; })) continue;
    eight.take(&histories[first], n);
    eight.ask(search, &histories[first], answers);
    for (std::size_t i = 0; i < n; ++i)
      if (moves[i]) all[first + i] = search.meaning(answers, static_cast<int>(i));
  }
  return all;
}

PlaneSearch normal_stress_plane(const FatigueConstants &constants) {
  return {PlaneQuestion::normal_stress, constants.mean_stress_sensitivity,
          [](const PlaneAnswers &a, int p) -> EquivalentStress {
            return {a.normal_amplitude.of[p], a.normal_mean.of[p], a.value.of[p], normal_of(a, p)};
          }};
}

/// Shear amplitude, mean normal stress and equivalent amplitude on the governing plane. A negative
/// value (compression outweighs the shear) does no harm.
EquivalentStress on_plane(const PlaneAnswers &a, int p, double value, double uniaxial) {
  return {a.shear_amplitude.of[p], a.normal_mean.of[p], std::max(0.0, value / uniaxial),
          normal_of(a, p)};
}

// max over planes (tau_a + k sn,max) <= F; k / sqrt(1 + k^2) = 2 t / f - 1. A fully reversed bar
// of amplitude s has the value s (k + sqrt(1 + k^2)) / 2.
PlaneSearch findley(const FatigueConstants &constants) {
  const double x = 2 * limit_ratio(constants) - 1, k = x / std::sqrt(1 - x * x);
  return {PlaneQuestion::shear_and_normal, k, [k](const PlaneAnswers &a, int p) {
            return on_plane(a, p, a.value.of[p], 0.5 * (k + std::sqrt(1 + k * k)));
          }};
}

// On the plane of the largest shear amplitude, of equals the one with the largest normal stress:
// tau_a + mu sn,max <= t; mu = 2 t / f - 1.
PlaneSearch matake(const FatigueConstants &constants) {
  const double mu = 2 * limit_ratio(constants) - 1;
  return {PlaneQuestion::shear, 0, [mu](const PlaneAnswers &a, int p) {
            const double largest = a.normal_mean.of[p] + a.normal_amplitude.of[p];
            return on_plane(a, p, a.shear_amplitude.of[p] + mu * largest, 0.5 * (1 + mu));
          }};
}

template <PlaneSearch (*search)(const FatigueConstants &)>
FatigueCriterion row(std::string name, std::string summary, std::string source) {
  FatigueCriterion r;
  r.name = std::move(name);
  r.summary = std::move(summary);
  r.source = std::move(source);
  r.confidence = "from memory";
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

}  // namespace

FatigueCriterion normal_stress_plane_row() {
  return row<normal_stress_plane>(
      "normal stress plane",
      "largest fully reversed equivalent of the normal-stress amplitude over all planes, "
      "mean stress after FKM; underrates phase-shifted bending and torsion (down to -38 % in "
      "the tests of Nishihara and Kawamoto); best for brittle material and cut edges",
      "definition common practice; mean stress FKM guideline");
}

FatigueCriterion findley_row() {
  return row<findley>(
      "Findley",
      "largest shear amplitude + k largest normal stress over all planes; amplitude reported: "
      "shear amplitude, mean: mean normal stress of that plane; counts a high static tension "
      "even where little alternates",
      "Findley 1959; Socie and Marquis, Multiaxial Fatigue");
}

FatigueCriterion matake_row() {
  return row<matake>(
      "Matake",
      "shear amplitude + mu largest normal stress on the plane of the largest shear amplitude; "
      "amplitude reported: shear amplitude, mean: mean normal stress of that plane",
      "Matake 1977");
}

}  // namespace felloe
