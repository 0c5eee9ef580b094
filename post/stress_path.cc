// SPDX-License-Identifier: GPL-3.0-or-later
// Swings, shear circles and deviator balls of harmonic and of sampled histories.
#include "post/stress_path.h"

#include <algorithm>
#include <cmath>

#include "mesher/error.h"
#include "post/plane_search.h"

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

Swing swing(const std::vector<double> &values) {
  const auto [low, high] = std::minmax_element(values.begin(), values.end());
  return {0.5 * (*high - *low), 0.5 * (*high + *low)};
}

}  // namespace

Point<5> deviator_coordinates(const Stress &s) {
  const double p = hydrostatic(s);
  return {std::sqrt(0.75) * (s[0] - p), 0.5 * (s[1] - s[2]), s[3], s[4], s[5]};
}

HarmonicPath::HarmonicPath(const HarmonicHistory &history) : h_(history) {
  for (const Stress *s : {&h_.mean, &h_.cosine, &h_.sine}) refuse_undefined(*s);
}

bool HarmonicPath::alternates() const {
  return std::max(size(h_.cosine), size(h_.sine)) > still * size(h_.mean);
}

Swing HarmonicPath::normal(const Vec3 &n) const {
  const double c = normal_stress(h_.cosine, n), s = normal_stress(h_.sine, n);
  return {std::sqrt(c * c + s * s), normal_stress(h_.mean, n)};
}

Swing HarmonicPath::hydrostatic() const {
  return {std::hypot(felloe::hydrostatic(h_.cosine), felloe::hydrostatic(h_.sine)),
          felloe::hydrostatic(h_.mean)};
}

double HarmonicPath::shear_amplitude(const Vec3 &n, double) const {
  const Vec3 c = traction(h_.cosine, n), s = traction(h_.sine, n);
  const double cn = dot(c, n), sn = dot(s, n);
  return half_axis(dot(c, c) - cn * cn, dot(s, s) - sn * sn, dot(c, s) - cn * sn);
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

SampledPath::SampledPath(const SampledHistory &history) : states_(history.states) {
  if (states_.empty())
    throw Error("stress history: no states: nothing to rate; give at least one state a turn");
  for (const Stress &s : states_) refuse_undefined(s);
  for (int k = 0; k < 6; ++k)
    for (const Stress &s : states_) columns_[k].push_back(s[k]);
  first_.resize(states_.size());
  second_.resize(states_.size());
  path_.resize(states_.size());
}

bool SampledPath::alternates() const {
  double range = 0, largest = 0;
  for (const auto &column : columns_) range = std::max(range, 2 * swing(column).amplitude);
  for (const Stress &s : states_) largest = std::max(largest, size(s));
  return range > still * largest;
}

void SampledPath::project(const Vec3 &p, const Vec3 &q, std::vector<double> &result) const {
  const double w[6] = {p[0] * q[0],
                       p[1] * q[1],
                       p[2] * q[2],
                       p[0] * q[1] + p[1] * q[0],
                       p[1] * q[2] + p[2] * q[1],
                       p[2] * q[0] + p[0] * q[2]};
  const auto &c = columns_;
  for (std::size_t i = 0; i < states_.size(); ++i)
    result[i] = w[0] * c[0][i] + w[1] * c[1][i] + w[2] * c[2][i] + w[3] * c[3][i] + w[4] * c[4][i] +
                w[5] * c[5][i];
}

Swing SampledPath::normal(const Vec3 &n) const {
  project(n, n, first_);
  return swing(first_);
}

Swing SampledPath::hydrostatic() const {
  for (std::size_t i = 0; i < states_.size(); ++i) first_[i] = felloe::hydrostatic(states_[i]);
  return swing(first_);
}

double SampledPath::shear_amplitude(const Vec3 &n, double floor) const {
  Vec3 u, v;
  tangents(n, u, v);
  project(u, n, first_);
  project(v, n, second_);
  // The circle lies within the one round the path's bounding box.
  const double box = std::hypot(swing(first_).amplitude, swing(second_).amplitude);
  if (box <= floor) return box;
  for (std::size_t i = 0; i < states_.size(); ++i) path_[i] = {first_[i], second_[i]};
  return smallest_ball<2>(path_).radius();
}

Ball<5> SampledPath::deviator_ball() const {
  std::vector<Point<5>> path;
  path.reserve(states_.size());
  for (const Stress &s : states_) path.push_back(deviator_coordinates(s));
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
        project(add(scale(std::cos(b), u), scale(std::sin(b), v)), n, first_);
        const double amplitude = swing(first_).amplitude;
        sum += weight[i] * amplitude * amplitude;
      }
    }
  return 5 * sum / (n_round * n_directions);
}

}  // namespace felloe
