// SPDX-License-Identifier: GPL-3.0-or-later
// Node numbers of disc, rim and fillet, their cells, ties and turn.
#include "mesher/sweep.h"

#include <algorithm>
#include <cmath>

namespace felloe {

SweptNodes::SweptNodes(const WheelGeometry &g, const ChartEntities &entities)
    : geometry_(g),
      n_half_(2 * g.chart().n_theta),
      disc_levels_(2 * g.layers() + 1),
      rim_levels_(2 * g.rim_layers() + 1) {
  first_rim_ = count_ = entities.count * disc_levels_;
  if (!g.has_rim()) return;
  find_flange(g, entities);
  // one number less for each root node: the disc's stands for it
  const int n_stations = 2 * static_cast<int>(g.rim().s.size()) - 1;
  count_ += n_stations * n_half_ * rim_levels_ - n_half_;
  first_weld_ = count_;
  for (const auto &node : g.weld().nodes) {
    const bool shared = node.layer >= 0 || node.station >= 0;
    own_.push_back(shared ? -1 : (count_ - first_weld_) / n_half_);
    if (!shared) count_ += n_half_;
  }
}

int SweptNodes::rim(int i, int k, int level) const {
  k %= n_half_;
  const int root = 2 * geometry_.rim().root;
  if (i == root && level == 0) return disc(flange_entity(n_flange_ - 1, k), disc_levels_ - 1);
  const int plain = (i * n_half_ + k) * rim_levels_ + level;
  // root nodes left out before this one
  const int before = i < root ? 0 : i > root ? n_half_ : k + 1;
  return first_rim_ + plain - before;
}

int SweptNodes::weld(int section_node, int k) const {
  k %= n_half_;
  const WeldNode &node = geometry_.weld().nodes[section_node];
  if (node.layer >= 0) return disc(flange_entity(n_flange_ - 1, k), node.layer);
  if (node.station >= 0) return rim(2 * geometry_.rim().root + node.station, k, 0);
  return first_weld_ + own_[section_node] * n_half_ + k;
}

/// The flange is a structured band: each of its entities stands at the mean of its quad's corners.
void SweptNodes::find_flange(const WheelGeometry &g, const ChartEntities &entities) {
  const ChartMesh &chart = g.chart();
  const auto &s = chart.flange_s;
  n_flange_ = 2 * static_cast<int>(s.size()) - 1;
  flange_.assign(n_flange_ * n_half_, -1);
  for (std::size_t q = 0; q < chart.quads.size(); ++q) {
    int circle[4], place[4];
    bool inside = chart.quads[q].hole < 0;
    for (int c = 0; c < 4 && inside; ++c) {
      const ChartNode &node = chart.nodes[chart.quads[q].nodes[c]];
      inside = node.s > s.front() - 1e-9;
      if (!inside) break;
      const auto at = std::lower_bound(s.begin(), s.end(), node.s - 1e-9);
      circle[c] = 2 * static_cast<int>(at - s.begin());
      place[c] = 2 * static_cast<int>(std::lround(node.theta * chart.n_theta / (2 * pi)));
      if (c > 0)
        place[c] -= n_half_ * static_cast<int>(std::lround(1.0 * (place[c] - place[0]) / n_half_));
    }
    if (!inside) continue;
    for (int j = 0; j < 3; ++j)
      for (int i = 0; i < 3; ++i) {
        const auto mean = [&](const int f[4]) {
          return ((2 - i) * (2 - j) * f[0] + i * (2 - j) * f[1] + (2 - i) * j * f[2] +
                  i * j * f[3]) /
                 4;
        };
        const int k = (mean(place) + 2 * n_half_) % n_half_;
        flange_[mean(circle) * n_half_ + k] = entities.quads[q][i + 3 * j];
      }
  }
}

namespace {

std::vector<std::array<int, 27>> swept_cells(const WheelGeometry &g, const ChartEntities &entities,
                                             const SweptNodes &nodes) {
  std::vector<std::array<int, 27>> cells;
  cells.reserve(g.n_cells());
  for (const auto &quad : entities.quads)
    for (int layer = 0; layer < g.layers(); ++layer) {
      cells.emplace_back();
      for (int n = 0; n < 27; ++n) cells.back()[n] = nodes.disc(quad[n % 9], 2 * layer + n / 9);
    }
  if (!g.has_rim()) return cells;
  const int n_theta = g.chart().n_theta, n_stations = static_cast<int>(g.rim().s.size()) - 1;
  for (int i = 0; i < n_stations; ++i)
    for (int k = 0; k < n_theta; ++k)
      for (int layer = 0; layer < g.rim_layers(); ++layer) {
        cells.emplace_back();
        for (int n = 0; n < 27; ++n)
          cells.back()[n] = nodes.rim(2 * i + n % 3, 2 * k + n / 3 % 3, 2 * layer + n / 9);
      }
  for (const auto &section : g.weld().cells)
    for (int k = 0; k < n_theta; ++k) {
      cells.emplace_back();
      for (int n = 0; n < 27; ++n)
        cells.back()[n] = nodes.weld(section[n % 3 + 3 * (n / 9)], 2 * k + n / 3 % 3);
    }
  return cells;
}

void place_nodes(const WheelGeometry &g, int count, Mesh &mesh) {
  mesh.nodes.resize(count);
  mesh.node_parts.resize(count);
  mesh.node_points.resize(count);
  std::vector<bool> placed(count, false);
  for (int cell = 0; cell < static_cast<int>(mesh.cells.size()); ++cell)
    for (int n = 0; n < 27; ++n) {
      const int node = mesh.cells[cell][n];
      if (placed[node]) continue;
      placed[node] = true;
      const Vec3 unit = {0.5 * (n % 3), 0.5 * (n / 3 % 3), 0.5 * (n / 9)};
      mesh.nodes[node] = g.position(cell, unit);
      mesh.node_points[node] = g.sheet_point(cell, unit);
      mesh.node_parts[node] = g.part(cell);
    }
}

void tie_press_fit(const WheelGeometry &g, const SweptNodes &nodes, Mesh &mesh) {
  const int outside = 2 * g.layers();
  for (int i = 0; i + 1 < nodes.n_flange(); ++i)
    for (int k = 0; k < nodes.n_half(); ++k)
      mesh.press_fit.push_back({nodes.disc(nodes.flange_entity(i, k), outside),
                                nodes.rim(2 * g.rim().overlap0 + i, k, 0)});
}

void turn_nodes(const WheelGeometry &g, const ChartEntities &entities, const SweptNodes &nodes,
                Mesh &mesh) {
  mesh.symmetry = g.chart().symmetry;
  if (mesh.symmetry <= 1) return;
  const std::vector<int> turned = turned_entities(g.chart(), entities);
  if (turned.empty() || nodes.n_half() % mesh.symmetry != 0) {
    mesh.symmetry = 1;
    return;
  }
  mesh.turned.assign(nodes.count(), -1);
  for (int e = 0; e < entities.count; ++e)
    for (int level = 0; level <= 2 * g.layers(); ++level)
      mesh.turned[nodes.disc(e, level)] = nodes.disc(turned[e], level);
  if (!g.has_rim()) return;
  const int step = nodes.n_half() / mesh.symmetry;
  const int n_stations = 2 * static_cast<int>(g.rim().s.size()) - 1;
  for (int k = 0; k < nodes.n_half(); ++k) {
    for (int i = 0; i < n_stations; ++i)
      for (int level = 0; level <= 2 * g.rim_layers(); ++level)
        mesh.turned[nodes.rim(i, k, level)] = nodes.rim(i, k + step, level);
    for (int n = 0; n < static_cast<int>(g.weld().nodes.size()); ++n)
      mesh.turned[nodes.weld(n, k)] = nodes.weld(n, k + step);
  }
}

}  // namespace

Mesh sweep(const WheelLayout &layout, const ChartMesh &chart, const MeshSize &size) {
  const auto geometry = std::make_shared<const WheelGeometry>(layout, chart, size);
  const WheelGeometry &g = *geometry;
  const ChartEntities entities(g.chart());
  const SweptNodes nodes(g, entities);
  Mesh mesh;
  mesh.n_theta = g.chart().n_theta;
  mesh.cells = swept_cells(g, entities, nodes);
  for (int cell = 0; cell < static_cast<int>(mesh.cells.size()); ++cell)
    mesh.parts.push_back(g.part(cell));
  place_nodes(g, nodes.count(), mesh);
  mesh.position = [geometry](int cell, const Vec3 &unit) { return geometry->position(cell, unit); };
  if (g.has_rim()) tie_press_fit(g, nodes, mesh);
  turn_nodes(g, entities, nodes, mesh);
  name_surfaces(g, mesh);
  name_lines(g, entities, nodes, mesh);
  return mesh;
}

}  // namespace felloe
