// SPDX-License-Identifier: GPL-3.0-or-later
// The wheel's exact volume, without any mesh: Pappus for what is revolved, quadrature for holes.
#include <algorithm>
#include <cmath>

#include "mesher/hole_ring.h"
#include "mesher/wheel_mesh.h"

namespace felloe {
namespace {

// 10-point Gauss on [-1, 1], the positive half
constexpr double gauss_x[5] = {0.1488743389816312, 0.4333953941292472, 0.6794095682990244,
                               0.8650633666889845, 0.9739065285171717};
constexpr double gauss_w[5] = {0.2955242247147529, 0.2692667193099963, 0.2190863625159820,
                               0.1494513491505806, 0.0666713443086881};

template <class F>
double integral(double a, double b, F f) {
  const double mid = 0.5 * (a + b), half = 0.5 * (b - a);
  double sum = 0;
  for (int q = 0; q < 5; ++q)
    sum += gauss_w[q] * (f(mid + half * gauss_x[q]) + f(mid - half * gauss_x[q]));
  return half * sum;
}

const MeridianPiece &piece_at(const Meridian &m, double s) {
  for (const auto &p : m.pieces())
    if (s <= p.s1) return p;
  return m.pieces().back();
}

/// Volume of a sheet of revolution. With h the distance from the mid-line along its normal n and k
/// the mid-line's curvature the volume element is 2 pi (r + h n_r) (1 - k h) ds dh; over h from
/// -t/2 to t/2: 2 pi (r t - k n_r t^3 / 12) ds.
double sheet_volume(const Sheet &sheet) {
  std::vector<double> cuts = {0, sheet.length()};
  for (const auto &p : sheet.meridian().pieces()) cuts.push_back(p.s0);
  for (const auto &t : sheet.thickness().stations())
    if (t.s > 0 && t.s < sheet.length()) cuts.push_back(t.s);
  std::sort(cuts.begin(), cuts.end());
  double volume = 0;
  for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
    if (cuts[i + 1] - cuts[i] < 1e-12) continue;
    const double k = piece_at(sheet.meridian(), 0.5 * (cuts[i] + cuts[i + 1])).curvature;
    volume += integral(cuts[i], cuts[i + 1], [&](double s) {
      const MeridianFrame f = sheet.meridian().at(s);
      const double t = sheet.thickness().at(s);
      return 2 * pi * (f.rz[0] * t - k * f.normal[0] * t * t * t / 12);
    });
  }
  return volume;
}

/// Volume of the sheet inside a hole's wall, in polar chart coordinates round the centre:
/// dV = (r + h n_r) (1 - k h) (t / 2) r dsigma dtheta deta with ds = r dsigma.
double hole_volume(const Sheet &sheet, const Hole &hole) {
  const double sigma0 = sheet.sigma(hole.s);
  const auto density = [&](double sigma, double eta) {
    const double s = sheet.s_at(sigma), half_t = 0.5 * sheet.thickness().at(s), h = eta * half_t;
    const MeridianFrame f = sheet.meridian().at(s);
    const double k = piece_at(sheet.meridian(), s).curvature;
    return (f.rz[0] + h * f.normal[0]) * (1 - k * h) * half_t * f.rz[0];
  };
  const auto slice = [&](double eta) {
    const int n_phi = 48;  // trapezoidal rule on a periodic smooth function
    double sum = 0;
    for (int i = 0; i < n_phi; ++i) {
      const double phi = 2 * pi * i / n_phi;
      const auto wall = wall_point(sheet, hole, phi, eta);
      const double reach = std::hypot(wall[0] - sigma0, wall[1] - hole.theta);
      sum += 2 * pi / n_phi * integral(0, reach, [&](double rho) {
               return rho * density(sigma0 + rho * std::cos(phi), eta);
             });
    }
    return sum;
  };
  if (hole.cone_radius > 0)
    return integral(-1, hole.cone_eta, slice) + integral(hole.cone_eta, 1, slice);
  return integral(-1, 1, slice);
}

/// All copies of a hole have one volume.
double holes_volume(const Sheet &sheet, const std::vector<Hole> &holes) {
  return holes.empty() ? 0 : static_cast<double>(holes.size()) * hole_volume(sheet, holes.front());
}

}  // namespace

PartVolumes exact_volumes(const WheelLayout &w) {
  PartVolumes v;
  v.disc = sheet_volume(w.disc) - holes_volume(w.disc, w.bolts) - holes_volume(w.disc, w.vents);
  if (w.wheel.construction == Construction::disc_only) return v;
  v.rim = sheet_volume(w.rim);
  const Vec2 a = w.disc.section_point(w.disc.length(), 1),
             b = w.disc.section_point(w.disc.length(), -1),
             c = w.rim.section_point(w.rim_weld_toe_s, -1);
  const double area = 0.5 * std::abs((b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1]));
  v.weld = 2 * pi * area * (a[0] + b[0] + c[0]) / 3;
  return v;
}

}  // namespace felloe
