// SPDX-License-Identifier: GPL-3.0-or-later
// The limit line of a Haigh diagram for any criterion.
#include "post/haigh_limit.h"

#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>

namespace felloe {
namespace {

HarmonicHistory bar(double mean, double amplitude) {
  HarmonicHistory h{};
  h.mean[0] = mean;
  h.cosine[0] = amplitude;
  return h;
}

/// Length of the ray (cos, sin) whose end is as damaging as `allowed`; negative where none is.
double reach(const FatigueCriterion &criterion, const FatigueConstants &constants, double allowed,
             double cosine, double sine, double longest) {
  const auto beyond = [&](double length) {
    const HarmonicHistory felt = bar(length * cosine, length * sine);
    const double counts = criterion.harmonic(felt, constants).fully_reversed;
    return std::min(counts / allowed, 1e3) - 1;  // beyond the strength it may be infinite
  };
  const double at_end = beyond(longest);
  if (at_end < 0) return -1;
  std::uintmax_t steps = 60;
  const boost::math::tools::eps_tolerance<double> single_precision(24);
  return boost::math::tools::toms748_solve(beyond, 0.0, longest, beyond(0), at_end,
                                           single_precision, steps)
      .second;
}

}  // namespace

std::vector<std::array<double, 2>> haigh_limit(const FatigueCriterion &criterion,
                                               const FatigueConstants &constants, double allowed,
                                               double lowest_mean, double largest_mean) {
  constexpr int rays = 180;
  const double longest = 4 * std::max({allowed, std::fabs(lowest_mean), std::fabs(largest_mean)});
  std::vector<std::array<double, 2>> line;
  for (int i = rays - 1; i > 0; --i) {
    const double angle = pi * i / rays, cosine = std::cos(angle), sine = std::sin(angle);
    const double length = reach(criterion, constants, allowed, cosine, sine, longest);
    const double mean = length * cosine;
    if (length > 0 && mean >= lowest_mean && mean <= largest_mean)
      line.push_back({mean, length * sine});
  }
  return line;
}

}  // namespace felloe
