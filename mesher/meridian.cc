// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesher/meridian.h"

#include <cmath>

#include "mesher/error.h"

namespace felloe {
namespace {

MeridianFrame frame_at(const MeridianPiece &p, double s) {
  const double ds = s - p.s0, k = p.curvature;
  const double turn = k * ds, c = std::cos(turn), sn = std::sin(turn);
  const Vec2 t0 = p.direction, n0 = {-t0[1], t0[0]};
  MeridianFrame f;
  if (p.is_bend())
    for (int d = 0; d < 2; ++d) f.rz[d] = p.start[d] + (sn * t0[d] + (1 - c) * n0[d]) / k;
  else
    for (int d = 0; d < 2; ++d) f.rz[d] = p.start[d] + ds * t0[d];
  f.tangent = {c * t0[0] + sn * n0[0], c * t0[1] + sn * n0[1]};
  f.normal = {-f.tangent[1], f.tangent[0]};
  return f;
}

double distance(const Vec2 &a, const Vec2 &b) { return std::hypot(b[0] - a[0], b[1] - a[1]); }

}  // namespace

Meridian::Meridian(const std::vector<MeridianCorner> &corners) {
  const auto n = corners.size();
  if (n < 2)
    throw Error("the mid-line has fewer than two points; give at least one point after the bore");
  std::vector<double> cut(n, 0.0);  // tangent length taken by the bend at each corner
  std::vector<double> turn(n, 0.0);
  std::vector<Vec2> direction(n);
  for (std::size_t i = 0; i + 1 < n; ++i) {
    const double l = distance(corners[i].rz, corners[i + 1].rz);
    if (l < 1e-6)
      throw Error("points " + std::to_string(i) + " and " + std::to_string(i + 1) +
                  " of the mid-line coincide; remove one");
    direction[i] = {(corners[i + 1].rz[0] - corners[i].rz[0]) / l,
                    (corners[i + 1].rz[1] - corners[i].rz[1]) / l};
  }
  for (std::size_t i = 1; i + 1 < n; ++i) {
    const Vec2 a = direction[i - 1], b = direction[i];
    turn[i] = std::atan2(a[0] * b[1] - a[1] * b[0], a[0] * b[0] + a[1] * b[1]);
    if (std::abs(turn[i]) > 0.98 * pi)
      throw Error("the mid-line folds back on itself at point " + std::to_string(i));
    cut[i] = corners[i].bend_radius * std::tan(0.5 * std::abs(turn[i]));
  }
  double s = 0;
  for (std::size_t i = 0; i + 1 < n; ++i) {
    const double leg = distance(corners[i].rz, corners[i + 1].rz);
    const double straight = leg - cut[i] - cut[i + 1];
    if (straight < -1e-9)
      throw Error("the bends at points " + std::to_string(i) + " and " + std::to_string(i + 1) +
                  " of the mid-line need " + std::to_string(cut[i] + cut[i + 1]) +
                  " mm of straight between them and have " + std::to_string(leg) +
                  " mm; make the bend radii smaller or move the points apart");
    const Vec2 from = {corners[i].rz[0] + cut[i] * direction[i][0],
                       corners[i].rz[1] + cut[i] * direction[i][1]};
    if (straight > 1e-9) {
      pieces_.push_back({s, s + straight, from, direction[i], 0});
      s += straight;
    }
    if (i + 2 < n && corners[i + 1].bend_radius > 0 && std::abs(turn[i + 1]) > 1e-12) {
      const double radius = corners[i + 1].bend_radius, arc = radius * std::abs(turn[i + 1]);
      const Vec2 start = {corners[i + 1].rz[0] - cut[i + 1] * direction[i][0],
                          corners[i + 1].rz[1] - cut[i + 1] * direction[i][1]};
      pieces_.push_back({s, s + arc, start, direction[i], (turn[i + 1] > 0 ? 1 : -1) / radius});
      s += arc;
    }
  }
}

MeridianFrame Meridian::at(double s) const {
  if (s <= 0 || s >= length()) {
    const bool before = s <= 0;
    MeridianFrame f = frame_at(before ? pieces_.front() : pieces_.back(), before ? 0 : length());
    const double beyond = before ? s : s - length();
    for (int d = 0; d < 2; ++d) f.rz[d] += beyond * f.tangent[d];
    return f;
  }
  std::size_t lo = 0, hi = pieces_.size() - 1;
  while (lo < hi) {
    const auto mid = (lo + hi) / 2;
    if (s <= pieces_[mid].s1)
      hi = mid;
    else
      lo = mid + 1;
  }
  return frame_at(pieces_[lo], s);
}

double Meridian::first_s_at_radius(double r) const {
  for (const auto &p : pieces_) {
    double a = p.s0, b = p.s1;
    // a bend can pass an extreme radius inside: split it there by sampling finely enough
    const int steps = p.is_bend() ? 64 : 1;
    for (int i = 0; i < steps; ++i) {
      a = p.s0 + (p.s1 - p.s0) * i / steps;
      b = p.s0 + (p.s1 - p.s0) * (i + 1) / steps;
      double fa = frame_at(p, a).rz[0] - r;
      const double fb = frame_at(p, b).rz[0] - r;
      if (fa == 0) return a;
      if (fa * fb > 0) continue;
      for (int k = 0; k < 80; ++k) {
        const double m = 0.5 * (a + b), fm = frame_at(p, m).rz[0] - r;
        if (fa * fm <= 0) {
          b = m;
        } else {
          a = m;
          fa = fm;
        }
      }
      return 0.5 * (a + b);
    }
  }
  return -1;
}

}  // namespace felloe
