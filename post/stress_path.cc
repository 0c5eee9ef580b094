// SPDX-License-Identifier: GPL-3.0-or-later
// Swings and deviator balls of harmonic and of sampled histories.
#include "post/stress_path.h"

#include <algorithm>
#include <cmath>

#include "mesher/error.h"

namespace felloe {
namespace {

// A history that moves less than this part of its size stands still.
constexpr double still = 1e-9;

double size(const Stress &s) {
  double largest = 0;
  for (double c : s.s) largest = std::max(largest, std::abs(c));
  return largest;
}

// A stress that is not a number compares as harmless: it must not come this far.
void refuse_undefined(const Stress &s) {
  for (double c : s.s)
    if (!std::isfinite(c))
      throw Error(
          "stress history: a stress is not a finite number: nothing can be rated; look at "
          "the solution of this load");
}

/// Larger half axis of the ellipse c cos(phi) + s sin(phi) from the products of its vectors.
double half_axis(double cc, double ss, double cs) {
  return std::sqrt(0.5 * (cc + ss) + std::sqrt(0.25 * (cc - ss) * (cc - ss) + cs * cs));
}

double product(const Point<5> &a, const Point<5> &b) {
  double sum = 0;
  for (int i = 0; i < 5; ++i) sum += a[i] * b[i];
  return sum;
}

Stress deviator(const Stress &s) {
  const double p = hydrostatic(s);
  return {{s[0] - p, s[1] - p, s[2] - p, s[3], s[4], s[5]}};
}

template <class Scalar>
Swing swing(const std::vector<Stress> &states, const Scalar &scalar) {
  double low = scalar(states.front()), high = low;
  for (const Stress &s : states) {
    const double value = scalar(s);
    low = std::min(low, value);
    high = std::max(high, value);
  }
  return {0.5 * (high - low), 0.5 * (high + low)};
}

/// Two unit vectors square to the unit normal and to each other.
void tangents(const Vec3 &n, Vec3 &u, Vec3 &v) {
  const Vec3 other = std::abs(n[2]) < 0.7 ? Vec3{0, 0, 1} : Vec3{1, 0, 0};
  u = cross(other, n);
  u = scale(1 / norm(u), u);
  v = cross(n, u);
}

}  // namespace

Point<5> deviator_coordinates(const Stress &s) {
  const double p = hydrostatic(s);
  return {std::sqrt(0.75) * (s[0] - p), 0.5 * (s[1] - s[2]), s[3], s[4], s[5]};
}

bool alternates(const HarmonicHistory &h) {
  for (const Stress *s : {&h.mean, &h.cosine, &h.sine}) refuse_undefined(*s);
  return std::max(size(h.cosine), size(h.sine)) > still * size(h.mean);
}

bool alternates(const SampledHistory &h) {
  if (h.states.empty())
    throw Error("stress history: no states: nothing to rate; give at least one state a turn");
  double range = 0, largest = 0;
  Stress low = h.states.front(), high = low;
  for (const Stress &s : h.states) {
    refuse_undefined(s);
    largest = std::max(largest, size(s));
    for (int k = 0; k < 6; ++k) {
      low[k] = std::min(low[k], s[k]);
      high[k] = std::max(high[k], s[k]);
    }
  }
  for (int k = 0; k < 6; ++k) range = std::max(range, high[k] - low[k]);
  return range > still * largest;
}

Swing HarmonicPath::hydrostatic() const {
  return {std::hypot(felloe::hydrostatic(h_.cosine), felloe::hydrostatic(h_.sine)),
          felloe::hydrostatic(h_.mean)};
}

Ball<5> HarmonicPath::deviator_ball() const {
  const Point<5> c = deviator_coordinates(h_.cosine), s = deviator_coordinates(h_.sine);
  const double radius = half_axis(product(c, c), product(s, s), product(c, s));
  return {deviator_coordinates(h_.mean), radius * radius};
}

Stress HarmonicPath::deviator_centre() const { return deviator(h_.mean); }

double HarmonicPath::mean_square_shear() const {
  const Point<5> c = deviator_coordinates(h_.cosine), s = deviator_coordinates(h_.sine);
  return product(c, c) + product(s, s);
}

Swing SampledPath::hydrostatic() const {
  return swing(states(), [](const Stress &s) { return felloe::hydrostatic(s); });
}

Ball<5> SampledPath::deviator_ball() const {
  std::vector<Point<5>> path;
  path.reserve(states().size());
  for (const Stress &s : states()) path.push_back(deviator_coordinates(s));
  return smallest_ball<5>(path);
}

Stress SampledPath::deviator_centre() const {
  const Point<5> c = deviator_ball().centre;
  const double xx = c[0] / std::sqrt(0.75);
  return {{xx, -0.5 * xx + c[1], -0.5 * xx - c[1], c[2], c[3], c[4]}};
}

// Resolved shear is a polynomial of degree 2 in the normal, so its square is integrated exactly by
// five Gauss points in the height and equal angles round the axis; half ranges of several states
// have kinks, for which there are more points than that.
double SampledPath::mean_square_shear() const {
  constexpr int n_heights = 5, n_round = 24, n_directions = 12;
  constexpr double height[n_heights] = {0.046910077030668, 0.230765344947158, 0.5,
                                        0.769234655052842, 0.953089922969332};
  constexpr double weight[n_heights] = {0.118463442528095, 0.239314335249683, 0.284444444444444,
                                        0.239314335249683, 0.118463442528095};
  double sum = 0;
  for (int i = 0; i < n_heights; ++i)
    for (int j = 0; j < n_round; ++j) {
      const double z = height[i], r = std::sqrt(1 - z * z), a = 2 * pi * j / n_round;
      const Vec3 n = {r * std::cos(a), r * std::sin(a), z};
      Vec3 u, v;
      tangents(n, u, v);
      for (int k = 0; k < n_directions; ++k) {
        const double b = pi * k / n_directions;
        const Vec3 along = add(scale(std::cos(b), u), scale(std::sin(b), v));
        const double amplitude =
            swing(states(), [&](const Stress &t) { return dot(traction(t, n), along); }).amplitude;
        sum += weight[i] * amplitude * amplitude;
      }
    }
  return 5 * sum / (n_round * n_directions);
}

}  // namespace felloe
