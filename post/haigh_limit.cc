// SPDX-License-Identifier: GPL-3.0-or-later
// The limit line of a Haigh diagram for any criterion.
#include "post/haigh_limit.h"

#include <algorithm>
#include <cmath>

namespace felloe {
namespace {

HarmonicHistory bar(double mean, double amplitude) {
  HarmonicHistory h{};
  h.mean[0] = mean;
  h.cosine[0] = amplitude;
  return h;
}

/// Length of the ray (cos, sin) whose end is as damaging as `allowed`; bisection, since not every
/// criterion is proportional.
double reach(const FatigueCriterion &criterion, const FatigueConstants &constants, double allowed,
             double cosine, double sine, double longest) {
  const auto damaging = [&](double length) {
    return criterion.harmonic(bar(length * cosine, length * sine), constants).fully_reversed >=
           allowed;
  };
  if (!damaging(longest)) return -1;
  double low = 0, high = longest;
  for (int i = 0; i < 30; ++i) {
    const double middle = 0.5 * (low + high);
    (damaging(middle) ? high : low) = middle;
  }
  return high;
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
