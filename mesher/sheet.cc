// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesher/sheet.h"

#include <algorithm>
#include <cmath>

#include "mesher/error.h"

namespace felloe {
namespace {

/// Integral of ds / r from the start of a piece over the length ds.
///
/// Straight with slope c = dr/ds:  ln(1 + c ds / r0) / c, or ds / r0 for c = 0.
/// Arc of curvature k: r(x) = a + b cos(k x + p); integrated by 20-point composite Gauss, which is
/// exact to rounding for bends of less than half a turn that stay clear of the axis.
double sigma_of_piece(const MeridianPiece &p, double ds) {
  const double r0 = p.start[0], c = p.direction[0];
  if (!p.is_bend()) {
    const double x = c * ds / r0;
    return std::abs(x) < 1e-9 ? ds / r0 * (1 - 0.5 * x) : std::log1p(x) / c;
  }
  static const double node[5] = {0.1488743389816312, 0.4333953941292472, 0.6794095682990244,
                                 0.8650633666889845, 0.9739065285171717};
  static const double weight[5] = {0.2955242247147529, 0.2692667193099963, 0.2190863625159820,
                                   0.1494513491505806, 0.0666713443086881};
  const double k = p.curvature;
  const auto radius = [&](double x) {
    return r0 + (std::sin(k * x) * p.direction[0] - (1 - std::cos(k * x)) * p.direction[1]) / k;
  };
  double sum = 0;
  const int parts = 2;
  for (int i = 0; i < parts; ++i) {
    const double mid = ds * (i + 0.5) / parts, half = 0.5 * ds / parts;
    for (int q = 0; q < 5; ++q)
      sum +=
          half * weight[q] * (1 / radius(mid + half * node[q]) + 1 / radius(mid - half * node[q]));
  }
  return sum;
}

}  // namespace

ThicknessLaw::ThicknessLaw(std::vector<ThicknessStation> stations)
    : stations_(std::move(stations)) {
  if (stations_.empty()) throw Error("no thickness is given; give at least one thickness station");
  for (std::size_t i = 0; i < stations_.size(); ++i) {
    if (!(stations_[i].thickness > 0))
      throw Error("thickness station " + std::to_string(i + 1) + " has a thickness of " +
                  std::to_string(stations_[i].thickness) + " mm; it must be positive");
    if (i > 0 && !(stations_[i].s > stations_[i - 1].s))
      throw Error("thickness stations must have ascending s; station " + std::to_string(i + 1) +
                  " does not lie behind the one before");
  }
}

double ThicknessLaw::at(double s) const {
  if (s <= stations_.front().s) return stations_.front().thickness;
  if (s >= stations_.back().s) return stations_.back().thickness;
  const auto above = std::upper_bound(stations_.begin(), stations_.end(), s,
                                      [](double x, const ThicknessStation &t) { return x < t.s; });
  const auto &b = *above, &a = *(above - 1);
  return a.thickness + (b.thickness - a.thickness) * (s - a.s) / (b.s - a.s);
}

double ThicknessLaw::largest() const {
  double t = 0;
  for (const auto &x : stations_) t = std::max(t, x.thickness);
  return t;
}

Sheet::Sheet(Meridian meridian, ThicknessLaw thickness)
    : meridian_(std::move(meridian)), thickness_(std::move(thickness)) {
  sigma_at_piece_.push_back(0);
  for (const auto &p : meridian_.pieces())
    sigma_at_piece_.push_back(sigma_at_piece_.back() + sigma_of_piece(p, p.s1 - p.s0));
}

double Sheet::sigma(double s) const {
  const auto &pieces = meridian_.pieces();
  std::size_t i = 0;
  while (i + 1 < pieces.size() && s > pieces[i].s1) ++i;
  return sigma_at_piece_[i] + sigma_of_piece(pieces[i], s - pieces[i].s0);
}

double Sheet::s_at(double sigma_value) const {
  const auto &pieces = meridian_.pieces();
  std::size_t i = 0;
  while (i + 1 < pieces.size() && sigma_value > sigma_at_piece_[i + 1]) ++i;
  // Newton: d sigma / d s = 1 / r
  double s = pieces[i].s0 + meridian_.at(pieces[i].s0).rz[0] * (sigma_value - sigma_at_piece_[i]);
  for (int k = 0; k < 50; ++k) {
    s = std::max(pieces[i].s0 - 0.5 * meridian_.length(), std::min(s, 1.5 * meridian_.length()));
    const double step = meridian_.at(s).rz[0] * (sigma_value - sigma(s));
    s += step;
    if (std::abs(step) < 1e-13 * (1 + meridian_.length())) break;
  }
  return s;
}

Vec2 Sheet::section_point(double s, double eta) const {
  const MeridianFrame f = meridian_.at(s);
  const double h = 0.5 * eta * thickness_.at(s);
  return {f.rz[0] + h * f.normal[0], f.rz[1] + h * f.normal[1]};
}

Vec3 Sheet::position(double s, double theta, double eta) const {
  return revolved(section_point(s, eta), theta);
}

Vec3 Sheet::normal(double s, double theta) const { return revolved(meridian_.at(s).normal, theta); }

}  // namespace felloe
