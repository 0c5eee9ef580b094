// SPDX-License-Identifier: GPL-3.0-or-later
// Evaluates sheet coordinates inside cells and pushes them forward.
#include "mesher/wheel_geometry.h"

#include <algorithm>
#include <cmath>

#include "mesher/bands.h"
#include "mesher/hole_ring.h"

namespace felloe {
namespace {

double bilinear(const double f[4], double u, double v) {
  return (1 - v) * ((1 - u) * f[0] + u * f[1]) + v * ((1 - u) * f[2] + u * f[3]);
}

/// theta moved by full turns next to the reference.
double unwrapped(double theta, double reference) {
  return theta - 2 * pi * std::round((theta - reference) / (2 * pi));
}

}  // namespace

WheelGeometry::WheelGeometry(WheelLayout layout, ChartMesh chart, const MeshSize &size)
    : layout_(std::move(layout)),
      chart_(std::move(chart)),
      layers_(disc_layer_count(layout_, size)),
      rim_layers_(std::max(1, size.rim_layers)) {
  for (const auto &node : chart_.nodes)
    sigma_.push_back(node.hole >= 0 && node.xi >= 1 ? chart_.rings[node.hole].border[node.spoke][0]
                                                    : layout_.disc.sigma(node.s));
  if (!has_flange(layout_)) return;
  rim_ = rim_stations(layout_, size, chart_.flange_s, layers_);
  weld_ = weld_section(layout_, layers_);
  n_rim_cells_ = (static_cast<int>(rim_.s.size()) - 1) * chart_.n_theta * rim_layers_;
}

int WheelGeometry::n_cells() const {
  return first_weld() + static_cast<int>(weld_.cells.size()) * chart_.n_theta;
}

Part WheelGeometry::part(int cell) const {
  return cell < first_rim() ? Part::disc : cell < first_weld() ? Part::rim : Part::weld;
}

int WheelGeometry::cone_layer(int hole) const {
  const Hole &h = chart_.holes[hole];
  if (h.cone_radius <= 0 || layers_ < 2) return layers_;
  const int nearest = static_cast<int>(std::lround(0.5 * (h.cone_eta + 1) * layers_));
  return std::max(1, std::min(layers_ - 1, nearest));
}

/// Layers are equally thick, but at the wall of a hole with a seat cone one layer border moves to
/// the cone's beginning; the shift fades towards the ring's outer border.
double WheelGeometry::eta_at(const ChartNode &node, double level) const {
  const double plain = -1 + 2 * level / layers_;
  if (node.hole < 0 || node.xi >= 1) return plain;
  const int cone = cone_layer(node.hole);
  if (cone == layers_) return plain;
  const double at = chart_.holes[node.hole].cone_eta;
  const double wall = level <= cone ? -1 + (at + 1) * level / cone
                                    : at + (1 - at) * (level - cone) / (layers_ - cone);
  return (1 - node.xi) * wall + node.xi * plain;
}

WheelGeometry::ChartPoint WheelGeometry::disc_point(int quad, int layer, const Vec3 &unit) const {
  const ChartQuad &q = chart_.quads[quad];
  double low[4], high[4];
  for (int i = 0; i < 4; ++i) {
    const ChartNode &node = chart_.nodes[q.nodes[i]];
    const bool in_ring = q.hole >= 0;
    low[i] = in_ring ? eta_at(node, layer) : -1 + 2.0 * layer / layers_;
    high[i] = in_ring ? eta_at(node, layer + 1) : -1 + 2.0 * (layer + 1) / layers_;
  }
  const double eta =
      (1 - unit[2]) * bilinear(low, unit[0], unit[1]) + unit[2] * bilinear(high, unit[0], unit[1]);
  if (q.hole >= 0) {
    const ChartNode &inner = chart_.nodes[q.nodes[0]], &outer = chart_.nodes[q.nodes[1]];
    const double xi = (1 - unit[0]) * inner.xi + unit[0] * outer.xi;
    const auto p = ring_point(layout_.disc, chart_.holes[q.hole], chart_.rings[q.hole], inner.spoke,
                              unit[1], xi, eta);
    return {p[0], p[1], eta};
  }
  double sigma[4], theta[4];
  for (int i = 0; i < 4; ++i) {
    sigma[i] = sigma_[q.nodes[i]];
    theta[i] = unwrapped(chart_.nodes[q.nodes[i]].theta, chart_.nodes[q.nodes[0]].theta);
  }
  return {bilinear(sigma, unit[0], unit[1]), bilinear(theta, unit[0], unit[1]), eta};
}

WheelGeometry::ChartPoint WheelGeometry::rim_point(int cell, const Vec3 &unit) const {
  const int n = cell - first_rim(), layer = n % rim_layers_, k = n / rim_layers_ % chart_.n_theta,
            i = n / rim_layers_ / chart_.n_theta;
  return {(1 - unit[0]) * rim_.s[i] + unit[0] * rim_.s[i + 1],
          2 * pi * (k + unit[1]) / chart_.n_theta, -1 + 2 * (layer + unit[2]) / rim_layers_};
}

Vec3 WheelGeometry::weld_position(int cell, const Vec3 &unit) const {
  const int n = cell - first_weld(), k = n % chart_.n_theta;
  const auto &nodes = weld_.cells[n / chart_.n_theta];
  Vec2 rz{};
  for (int d = 0; d < 2; ++d) {
    const double f[4] = {weld_.nodes[nodes[0]].rz[d], weld_.nodes[nodes[2]].rz[d],
                         weld_.nodes[nodes[6]].rz[d], weld_.nodes[nodes[8]].rz[d]};
    rz[d] = bilinear(f, unit[0], unit[2]);
  }
  return revolved(rz, 2 * pi * (k + unit[1]) / chart_.n_theta);
}

Vec3 WheelGeometry::position(int cell, const Vec3 &unit) const {
  if (cell < first_rim()) {
    const ChartPoint p = disc_point(cell / layers_, cell % layers_, unit);
    return layout_.disc.position(layout_.disc.s_at(p.sigma), p.theta, p.eta);
  }
  if (cell >= first_weld()) return weld_position(cell, unit);
  const ChartPoint p = rim_point(cell, unit);
  return layout_.rim.position(p.sigma, p.theta, p.eta);
}

SheetPoint WheelGeometry::sheet_point(int cell, const Vec3 &unit) const {
  if (cell >= first_weld()) return {};
  if (cell >= first_rim()) {
    const ChartPoint p = rim_point(cell, unit);
    return {p.sigma, p.eta};
  }
  const ChartPoint p = disc_point(cell / layers_, cell % layers_, unit);
  return {layout_.disc.s_at(p.sigma), p.eta};
}

}  // namespace felloe
