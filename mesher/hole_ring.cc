// SPDX-License-Identifier: GPL-3.0-or-later
// Wall of a hole by root search along a ray in the chart; rings on top of it.
#include "mesher/hole_ring.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "mesher/error.h"

namespace felloe {
namespace {

/// Distance from the hole's axis to the wall's radius along one ray in the chart. The hole is
/// taken at theta = 0, so that copies of a hole get identical numbers.
class WallRay {
 public:
  WallRay(const Sheet &sheet, const Hole &hole, double phi, double eta)
      : sheet_(sheet),
        eta_(eta),
        radius_(hole.wall_radius(eta)),
        sigma_(sheet.sigma(hole.s)),
        c_(std::cos(phi)),
        s_(std::sin(phi)),
        centre_(sheet.position(hole.s, 0, 0)),
        axis_(sheet.normal(hole.s, 0)) {}
  double excess(double rho) const {
    const Vec3 d =
        subtract(sheet_.position(sheet_.s_at(sigma_ + rho * c_), rho * s_, eta_), centre_);
    return norm(subtract(d, scale(dot(d, axis_), axis_))) - radius_;
  }
  double first_guess() const { return radius_ / centre_[0]; }
  std::array<double, 2> point(double rho) const { return {sigma_ + rho * c_, rho * s_}; }

 private:
  const Sheet &sheet_;
  double eta_, radius_, sigma_, c_, s_;
  Vec3 centre_, axis_;
};

/// Root of the excess along the ray: bracket that grows until it holds the root, then the Illinois
/// variant of regula falsi.
double wall_distance(const WallRay &ray, const Hole &hole) {
  double a = 0, fa = ray.excess(0), b = 1.05 * ray.first_guess(), fb = ray.excess(b);
  for (int i = 0; fb < 0; ++i) {
    if (i == 20)
      throw Error(hole.name + ": the sheet does not reach the wall at the radius " +
                  std::to_string(hole.radius) +
                  " mm; move the hole away from the sheet's edge or make it smaller");
    a = b;
    fa = fb;
    b *= 1.2;
    fb = ray.excess(b);
  }
  int side = 0;
  for (int i = 0; i < 100 && b - a > 1e-16; ++i) {
    const double x = (a * fb - b * fa) / (fb - fa), fx = ray.excess(x);
    if (std::abs(fx) < 1e-13 * (1 + hole.radius)) return x;
    if (fx < 0) {
      a = x;
      fa = fx;
      if (side == -1) fb *= 0.5;
      side = -1;
    } else {
      b = x;
      fb = fx;
      if (side == 1) fa *= 0.5;
      side = 1;
    }
  }
  return 0.5 * (a + b);
}

}  // namespace

std::array<double, 2> wall_point(const Sheet &sheet, const Hole &hole, double phi, double eta) {
  const WallRay ray(sheet, hole, phi, eta);
  const auto p = ray.point(wall_distance(ray, hole));
  return {p[0], hole.theta + p[1]};
}

std::array<double, 2> ring_point(const Sheet &sheet, const Hole &hole, const HoleRing &ring,
                                 int spoke, double t, double xi, double eta) {
  const int n = static_cast<int>(ring.phi.size()), next = (spoke + 1) % n;
  const double phi0 = ring.phi[spoke], phi1 = ring.phi[next] + (next == 0 ? 2 * pi : 0);
  const auto &b0 = ring.border[spoke], &b1 = ring.border[next];
  const std::array<double, 2> border = {b0[0] + t * (b1[0] - b0[0]), b0[1] + t * (b1[1] - b0[1])};
  if (xi >= 1) return border;
  const auto wall = wall_point(sheet, hole, phi0 + t * (phi1 - phi0), eta);
  return {wall[0] + xi * (border[0] - wall[0]), wall[1] + xi * (border[1] - wall[1])};
}

double widest_wall(const Sheet &sheet, const Hole &hole, double phi) {
  double widest = 0;
  for (const double eta : {-1.0, -0.5, 0.0, 0.5, hole.cone_eta, 1.0})
    widest = std::max(widest, wall_distance(WallRay(sheet, hole, phi, eta), hole));
  return widest;
}

HoleRing hole_ring(const Sheet &sheet, const Hole &hole, int n_phi, double width) {
  HoleRing ring;
  ring.centre_sigma = sheet.sigma(hole.s);
  ring.centre_theta = hole.theta;
  for (int m = 0; m < n_phi; ++m) {
    const double phi = 2 * pi * m / n_phi;
    // the lower half mirrors the upper one exactly
    const bool mirrored = 2 * m > n_phi;
    const double upper = mirrored ? 2 * pi * (n_phi - m) / n_phi : phi;
    const double rho = widest_wall(sheet, hole, upper) + width;
    const double rise = 2 * m == n_phi || m == 0 ? 0 : rho * std::sin(upper);
    ring.phi.push_back(phi);
    ring.border.push_back(
        {ring.centre_sigma + rho * std::cos(upper), ring.centre_theta + (mirrored ? -rise : rise)});
  }
  return ring;
}

HoleRing turned_ring(const HoleRing &ring, double theta) {
  HoleRing copy = ring;
  for (auto &p : copy.border) p[1] = theta + (p[1] - ring.centre_theta);
  copy.centre_theta = theta;
  return copy;
}

std::vector<double> ring_layer_borders(int layers, double first) {
  const auto total = [&](double q) {
    double sum = 0, w = 1;
    for (int i = 0; i < layers; ++i, w *= q) sum += w;
    return sum;
  };
  double lo = 1, hi = 1.6;
  if (first * total(lo) >= 1) {
    hi = lo;
  } else if (first * total(hi) <= 1) {
    lo = hi;
  } else {
    for (int i = 0; i < 60; ++i) {
      const double q = 0.5 * (lo + hi);
      (first * total(q) < 1 ? lo : hi) = q;
    }
  }
  const double q = 0.5 * (lo + hi);
  std::vector<double> xi(layers + 1, 0.0);
  double w = 1;
  for (int i = 0; i < layers; ++i, w *= q) xi[i + 1] = xi[i] + w;
  for (int i = 0; i <= layers; ++i) xi[i] = i == layers ? 1.0 : xi[i] / total(q);
  return xi;
}

}  // namespace felloe
