// SPDX-License-Identifier: GPL-3.0-or-later
// Numbering of chart edges and quads; matching under a turn by parameters.
#include "mesher/chart_entities.h"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace felloe {
namespace {

// corners of the four edges of a quad and where their middles stand in the 3 x 3 pattern
constexpr int edge_corners[4][2] = {{0, 2}, {1, 3}, {0, 1}, {2, 3}};
constexpr int edge_place[4] = {3, 5, 1, 7};
constexpr int corner_place[4] = {0, 2, 6, 8};

/// Vertices by their parameters (not by coordinates: disc and rim have coincident ones). Values
/// are looked up on a fine grid, neighbours included.
class VertexFinder {
 public:
  explicit VertexFinder(const ChartMesh &chart) : chart_(chart) {
    for (int v = 0; v < static_cast<int>(chart.nodes.size()); ++v) {
      const ChartNode &n = chart.nodes[v];
      if (n.hole >= 0)
        ring_[{n.hole, n.spoke, grid(n.xi, 1e-7)}] = v;
      else
        plain_[{grid(n.s, 1e-6), grid(n.theta, 1e-8)}] = v;
    }
  }
  int ring(int hole, int spoke, double xi) const {
    for (int d = -1; d <= 1; ++d) {
      const auto at = ring_.find({hole, spoke, grid(xi, 1e-7) + d});
      if (at != ring_.end()) return at->second;
    }
    return -1;
  }
  int plain(double s, double theta) const {
    theta -= 2 * pi * std::floor(theta / (2 * pi));
    for (const double turn : {0.0, -2 * pi, 2 * pi})
      for (int i = -1; i <= 1; ++i)
        for (int j = -1; j <= 1; ++j) {
          const auto at = plain_.find({grid(s, 1e-6) + i, grid(theta + turn, 1e-8) + j});
          if (at != plain_.end()) return at->second;
        }
    return -1;
  }

 private:
  static long grid(double x, double step) { return std::lround(x / step); }
  const ChartMesh &chart_;
  std::map<std::tuple<int, int, long>, int> ring_;
  std::map<std::pair<long, long>, int> plain_;
};

/// Hole that a hole of the same row turns into.
int turned_hole(const ChartMesh &chart, int hole) {
  const double theta = chart.holes[hole].theta + 2 * pi / chart.symmetry;
  for (std::size_t h = 0; h < chart.holes.size(); ++h) {
    const Hole &other = chart.holes[h];
    if (other.s == chart.holes[hole].s && other.radius == chart.holes[hole].radius &&
        std::abs(std::remainder(other.theta - theta, 2 * pi)) < 1e-9)
      return static_cast<int>(h);
  }
  return -1;
}

}  // namespace

ChartEntities::ChartEntities(const ChartMesh &chart) {
  count = static_cast<int>(chart.nodes.size());
  for (const auto &q : chart.quads) {
    quads.emplace_back();
    auto &place = quads.back();
    for (int i = 0; i < 4; ++i) place[corner_place[i]] = q.nodes[i];
    for (int e = 0; e < 4; ++e) {
      const auto [low, high] =
          std::minmax(q.nodes[edge_corners[e][0]], q.nodes[edge_corners[e][1]]);
      const auto [at, is_new] = edges.emplace(std::make_pair(low, high), count);
      count += is_new;
      place[edge_place[e]] = at->second;
    }
    place[4] = count++;
  }
}

std::vector<int> turned_entities(const ChartMesh &chart, const ChartEntities &entities) {
  const VertexFinder finder(chart);
  std::vector<int> turned(entities.count, -1), hole(chart.holes.size());
  for (std::size_t h = 0; h < hole.size(); ++h) hole[h] = turned_hole(chart, static_cast<int>(h));
  const int n_vertices = static_cast<int>(chart.nodes.size());
  for (int v = 0; v < n_vertices; ++v) {
    const ChartNode &n = chart.nodes[v];
    turned[v] = n.hole >= 0 ? finder.ring(hole[n.hole], n.spoke, n.xi)
                            : finder.plain(n.s, n.theta + 2 * pi / chart.symmetry);
    if (turned[v] < 0) return {};
  }
  for (const auto &[ends, e] : entities.edges) {
    const auto [low, high] = std::minmax(turned[ends.first], turned[ends.second]);
    const auto at = entities.edges.find({low, high});
    if (at == entities.edges.end()) return {};
    turned[e] = at->second;
  }
  std::map<std::array<int, 4>, int> middles;
  const auto corners = [](std::array<int, 4> c) {
    std::sort(c.begin(), c.end());
    return c;
  };
  for (std::size_t q = 0; q < chart.quads.size(); ++q)
    middles[corners(chart.quads[q].nodes)] = entities.quads[q][4];
  for (std::size_t q = 0; q < chart.quads.size(); ++q) {
    std::array<int, 4> c = chart.quads[q].nodes;
    for (int &v : c) v = turned[v];
    const auto at = middles.find(corners(c));
    if (at == middles.end()) return {};
    turned[entities.quads[q][4]] = at->second;
  }
  return turned;
}

}  // namespace felloe
