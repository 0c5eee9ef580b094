// SPDX-License-Identifier: GPL-3.0-or-later
// Largest value of a function over all material planes: coarse grid, then local refinement.
#pragma once
#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "mesher/vec3.h"

namespace felloe {

/// Asks for the exact value, however small.
constexpr double no_floor = -std::numeric_limits<double>::infinity();

struct PlaneMaximum {
  Vec3 normal{0, 0, 1};
  double value = 0;
};

/// Normals spread evenly over a half sphere, about 7 degrees apart.
const std::vector<Vec3> &coarse_planes();
/// Two unit vectors that make a right-handed frame with the unit normal.
void tangents(const Vec3 &normal, Vec3 &u, Vec3 &v);

/// Climbs from a start to the next local maximum. Six directions a round, turned after every
/// failure so that ridges (kinks of the function) cannot stop it for good; level ridges end it
/// after 300 rounds.
template <class Value>
PlaneMaximum climb(const Value &value, PlaneMaximum best, double step, double last_step) {
  double turn = 0;
  for (int round = 0; step > last_step && round < 300; ++round) {
    Vec3 u, v;
    tangents(best.normal, u, v);
    PlaneMaximum next = best;
    for (int i = 0; i < 6; ++i) {
      const double angle = turn + i * pi / 3;
      const Vec3 aside = add(scale(std::cos(angle), u), scale(std::sin(angle), v));
      Vec3 n = add(best.normal, scale(step, aside));
      n = scale(1 / norm(n), n);
      const double trial = value(n, next.value);
      if (trial > next.value) next = {n, trial};
    }
    if (next.value > best.value) {
      best = next;
    } else {
      step *= 0.55;
      turn += 0.618;
    }
  }
  return best;
}

/// Maximum of value(normal, floor) over all planes; value(n) == value(-n). Where the value lies
/// below the floor, any number between the value and the floor will do (a cheap upper bound).
/// Smooth maxima are exact to 1e-8, kinked ones to 1e-5 of the range. The best coarse planes, at
/// least 15 degrees apart, are climbed from; the winner is climbed to the end.
template <class Value>
PlaneMaximum maximum_over_planes(const Value &value, int starts = 4) {
  constexpr double coarse_step = 0.05, middle_step = 3e-3, last_step = 1e-5;
  const auto &planes = coarse_planes();
  std::vector<double> values(planes.size());
  double floor = no_floor;
  for (std::size_t i = 0; i < planes.size(); ++i) {
    values[i] = value(planes[i], floor);
    if (values[i] > 0) floor = std::max(floor, 0.9 * values[i]);
  }
  const auto [low, high] = std::minmax_element(values.begin(), values.end());
  const double lowest = *low, threshold = *high - 0.06 * (*high - *low);
  PlaneMaximum best;
  for (int start = 0; start < starts; ++start) {
    const auto top = std::max_element(values.begin(), values.end());
    if (start > 0 && (*top < threshold || *top <= lowest)) break;
    const Vec3 n = planes[top - values.begin()];
    const PlaneMaximum found = climb(value, {n, value(n, no_floor)}, coarse_step, middle_step);
    if (start == 0 || found.value > best.value) best = found;
    for (std::size_t i = 0; i < planes.size(); ++i)
      if (std::abs(dot(planes[i], n)) > 0.966) values[i] = lowest;
  }
  return climb(value, best, middle_step, last_step);
}

}  // namespace felloe
