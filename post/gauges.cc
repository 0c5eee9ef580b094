// SPDX-License-Identifier: GPL-3.0-or-later
// Finds the grid of a strain gauge on the mesh's face and reads it.
#include "post/gauges.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "mesher/error.h"

namespace felloe {
namespace {

struct ChartPoint {
  double s, theta;
};

using Weights9 = std::array<double, 9>;

/// Quadratic shape functions at (a, b) of the unit square, node i + 3 j at (i, j) / 2.
Weights9 shapes(double a, double b) {
  const auto along = [](double x) {
    return std::array<double, 3>{(2 * x - 1) * (x - 1), 4 * x * (1 - x), x * (2 * x - 1)};
  };
  const auto f = along(a), g = along(b);
  Weights9 w{};
  for (int j = 0; j < 3; ++j)
    for (int i = 0; i < 3; ++i) w[i + 3 * j] = f[i] * g[j];
  return w;
}

double angle_from(double theta, double reference) {
  return std::remainder(theta - reference, 2 * pi);
}

/// The face of the sheet, cell by cell, in its chart.
class Face {
 public:
  Face(const Mesh &mesh, Part part, double eta) : mesh_(mesh) {
    for (std::size_t c = 0; c < mesh.cells.size(); ++c) {
      if (mesh.parts[c] != part) continue;
      for (int f = 0; f < 6; ++f) {
        const auto nodes = face_nodes(mesh, {static_cast<int>(c), f});
        if (std::all_of(nodes.begin(), nodes.end(), [&](int n) {
              return mesh.node_parts[n] == part && std::fabs(mesh.node_points[n].eta - eta) < 1e-9;
            }))
          faces_.push_back(nodes);
      }
    }
  }

  /// Nodes and weights at a point; false where there is no sheet.
  bool find(const ChartPoint &p, std::array<int, 9> &nodes, Weights9 &weights) const {
    for (const auto &face : faces_) {
      std::array<ChartPoint, 9> corner;
      double s0 = 1e300, s1 = -1e300, t0 = 1e300, t1 = -1e300;
      for (int i = 0; i < 9; ++i) {
        const Vec3 &x = mesh_.nodes[face[i]];
        corner[i] = {mesh_.node_points[face[i]].s - p.s,
                     angle_from(std::atan2(x[1], x[0]), p.theta)};
        s0 = std::min(s0, corner[i].s), s1 = std::max(s1, corner[i].s);
        t0 = std::min(t0, corner[i].theta), t1 = std::max(t1, corner[i].theta);
      }
      const double ds = 0.1 * (s1 - s0), dt = 0.1 * (t1 - t0);
      if (s0 - ds > 0 || s1 + ds < 0 || t0 - dt > 0 || t1 + dt < 0 || t1 - t0 > 1) continue;
      if (inside(corner, weights)) {
        nodes = face;
        return true;
      }
    }
    return false;
  }

 private:
  /// Newton for the unit coordinates of the origin of the chart.
  static bool inside(const std::array<ChartPoint, 9> &corner, Weights9 &weights) {
    double a = 0.5, b = 0.5;
    const auto at = [&](double x, double y) {
      const Weights9 w = shapes(x, y);
      ChartPoint p{0, 0};
      for (int i = 0; i < 9; ++i) p.s += w[i] * corner[i].s, p.theta += w[i] * corner[i].theta;
      return p;
    };
    for (int round = 0; round < 20; ++round) {
      constexpr double h = 1e-6;
      const ChartPoint f = at(a, b), fa = at(a + h, b), fb = at(a, b + h);
      const double j00 = (fa.s - f.s) / h, j01 = (fb.s - f.s) / h;
      const double j10 = (fa.theta - f.theta) / h, j11 = (fb.theta - f.theta) / h;
      const double det = j00 * j11 - j01 * j10;
      if (det == 0) return false;
      const double da = (j11 * f.s - j01 * f.theta) / det, db = (j00 * f.theta - j10 * f.s) / det;
      a = std::clamp(a - da, -0.5, 1.5);
      b = std::clamp(b - db, -0.5, 1.5);
      if (std::fabs(da) + std::fabs(db) < 1e-12) break;
    }
    constexpr double tolerance = 1e-6;
    if (a < -tolerance || a > 1 + tolerance || b < -tolerance || b > 1 + tolerance) return false;
    weights = shapes(a, b);
    return true;
  }

  const Mesh &mesh_;
  std::vector<std::array<int, 9>> faces_;
};

/// Unit vector along the meridian on the side, and how fast the side runs with s.
Vec2 meridian_slope(const Sheet &sheet, double s, double eta) {
  const double h = 1e-4;
  const double s0 = std::max(0.0, s - h), s1 = std::min(sheet.length(), s + h);
  const Vec2 a = sheet.section_point(s0, eta), b = sheet.section_point(s1, eta);
  return {(b[0] - a[0]) / (s1 - s0), (b[1] - a[1]) / (s1 - s0)};
}

/// Strain along d as a product with the six stress components: ((1 + nu) d d - nu I) / E.
Stress hooke_along(const Vec3 &d, const Material &m) {
  const double e = 1 / m.youngs_modulus, g = (1 + m.poissons_ratio) * e, v = m.poissons_ratio * e;
  return {{g * d[0] * d[0] - v, g * d[1] * d[1] - v, g * d[2] * d[2] - v, 2 * g * d[0] * d[1],
           2 * g * d[1] * d[2], 2 * g * d[2] * d[0]}};
}

}  // namespace

StrainGauge strain_gauge(const Mesh &mesh, const Sheet &sheet, const GaugePlace &p,
                         const Material &material) {
  const Face face(mesh, p.part, p.eta);
  static const double root = std::sqrt(0.6);
  const std::array<double, 3> gauss{-root, 0, root}, gauss_weight{5 / 18., 8 / 18., 5 / 18.};
  StrainGauge gauge;
  gauge.position = sheet.position(p.s, p.theta, p.eta);
  const Vec2 middle = meridian_slope(sheet, p.s, p.eta);
  const double stretch = std::hypot(middle[0], middle[1]);
  const double r = sheet.section_point(p.s, p.eta)[0];
  const auto along = [&](double x) {
    const double way = 0.5 * p.grid_length * x;
    return ChartPoint{p.s + way * std::cos(p.direction) / stretch,
                      p.theta + way * std::sin(p.direction) / r};
  };
  std::array<int, 9> nodes{};
  Weights9 shape{};
  for (const double end : {-1.0, 1.0})
    if (!face.find(along(end), nodes, shape))
      throw Error(
          "there is no sheet under the whole grid (a hole, an edge, the weld or the end of "
          "the part); move the gauge or shorten its grid");
  for (int g = 0; g < 3; ++g) {
    const ChartPoint at = along(gauss[g]);
    if (!face.find(at, nodes, shape))
      throw Error("there is no sheet under the whole grid; move the gauge");
    const Vec2 slope = meridian_slope(sheet, at.s, p.eta);
    const double length = std::hypot(slope[0], slope[1]);
    const double c = std::cos(p.direction) / length, sine = std::sin(p.direction);
    const double ct = std::cos(at.theta), st = std::sin(at.theta);
    const Vec3 d{c * slope[0] * ct - sine * st, c * slope[0] * st + sine * ct, c * slope[1]};
    const Stress hooke = hooke_along(d, material);
    for (int i = 0; i < 9; ++i) gauge.add(nodes[i], gauss_weight[g] * shape[i] * hooke);
  }
  return gauge;
}

std::vector<double> lengths_at_radius(const Sheet &sheet, double r, double eta) {
  const auto f = [&](double s) { return sheet.section_point(s, eta)[0] - r; };
  std::vector<double> found;
  const int steps = std::max(200, static_cast<int>(4 * sheet.length()));
  for (int i = 0; i < steps; ++i) {
    double low = sheet.length() * i / steps, high = sheet.length() * (i + 1) / steps;
    const double at_low = f(low);
    if (at_low == 0) found.push_back(low);
    if (!(at_low * f(high) < 0)) continue;
    for (int round = 0; round < 60; ++round) {
      const double middle = 0.5 * (low + high);
      (f(middle) * at_low > 0 ? low : high) = middle;
    }
    found.push_back(0.5 * (low + high));
  }
  return found;
}

GaugeReading reading(const StrainGauge &gauge, const TurnHistory &turn) {
  constexpr double micro = 1e6;
  constexpr int n_angles = 72;
  const FigureTurn strain = figure_turn(gauge, turn);
  GaugeReading r;
  r.mean = micro * strain.mean();
  r.amplitude = micro * strain.amplitude();
  for (const double e : strain.states) r.trace.push_back(micro * e);
  if (strain.harmonic)
    for (int k = 0; k < n_angles; ++k) {
      const double phi = 2 * pi * k / n_angles;
      r.trace.push_back(
          micro * (strain.steady + strain.cosine * std::cos(phi) + strain.sine * std::sin(phi)));
    }
  return r;
}

}  // namespace felloe
