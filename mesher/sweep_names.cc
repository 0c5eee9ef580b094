// SPDX-License-Identifier: GPL-3.0-or-later
// Surfaces and lines of the swept mesh. The sides of disc and rim hold everything on them; hub
// face, seats, overlap, bead seats, flanges and well are parts of these.
#include <algorithm>
#include <cmath>
#include <string>

#include "mesher/bands.h"
#include "mesher/sweep.h"

namespace felloe {
namespace {

constexpr double at_circle = 1e-7;  // mm
constexpr int edge_corners[4][2] = {{0, 2}, {1, 3}, {0, 1}, {2, 3}};

/// "bolt ... 3", "vent ... 2": holes are numbered through, bolts first.
struct HoleName {
  bool is_bolt;
  std::string number;
  HoleName(const WheelLayout &w, int hole)
      : is_bolt(hole < static_cast<int>(w.bolts.size())),
        number(" " +
               std::to_string(1 + (is_bolt ? hole : hole - static_cast<int>(w.bolts.size())))) {}
  std::string operator()(const std::string &what) const {
    return (is_bolt ? "bolt " : "vent ") + what + number;
  }
};

/// Faces of one disc quad's stack of cells.
void name_disc_quad(const WheelGeometry &g, int q, Mesh &mesh) {
  const ChartMesh &chart = g.chart();
  const WheelLayout &w = g.layout();
  const ChartQuad &quad = chart.quads[q];
  auto &surfaces = mesh.surfaces;
  const int first = q * g.layers(), last = first + g.layers() - 1;
  double s[4], centre = 0;
  for (int c = 0; c < 4; ++c) centre += 0.25 * (s[c] = chart.nodes[quad.nodes[c]].s);
  surfaces["disc inboard side"].push_back({first, 4});
  surfaces["disc outboard side"].push_back({last, 5});
  if (centre < w.hub_face_s) surfaces["hub face"].push_back({first, 4});
  if (has_flange(w) && centre > w.flange_s0) surfaces["flange overlap disc"].push_back({last, 5});
  if (quad.hole >= 0) {
    const HoleName name(w, quad.hole);
    const Hole &hole = chart.holes[quad.hole];
    if (name.is_bolt && hole.cone_radius <= 0) surfaces[name("seat")].push_back({last, 5});
    if (chart.nodes[quad.nodes[0]].xi > 0) return;
    for (int layer = 0; layer < g.layers(); ++layer)
      surfaces[name(layer >= g.cone_layer(quad.hole) ? "seat" : "hole")].push_back(
          {first + layer, 0});
    return;
  }
  for (int e = 0; e < 4; ++e) {
    const double a = s[edge_corners[e][0]], b = s[edge_corners[e][1]];
    const bool bore = std::max(a, b) < at_circle,
               outer = !has_flange(w) && std::min(a, b) > w.disc.length() - at_circle;
    if (!bore && !outer) continue;
    for (int layer = 0; layer < g.layers(); ++layer)
      surfaces[bore ? "bore" : "outer edge"].push_back({first + layer, e});
  }
}

void name_rim(const WheelGeometry &g, Mesh &mesh) {
  const RimStations &rim = g.rim();
  auto &surfaces = mesh.surfaces;
  const int n_theta = g.chart().n_theta, layers = g.rim_layers();
  for (int i = 0; i + 1 < static_cast<int>(rim.s.size()); ++i) {
    const std::string name = rim_surface_at(g.layout(), 0.5 * (rim.s[i] + rim.s[i + 1]));
    for (int k = 0; k < n_theta; ++k) {
      const int first = g.first_rim() + (i * n_theta + k) * layers;
      const CellFace in{first, 4}, out{first + layers - 1, 5};
      surfaces["rim tyre side"].push_back(out);
      if (!name.empty()) surfaces[name].push_back(out);
      if (i < rim.root || i >= rim.toe) surfaces["rim inner side"].push_back(in);
      if (i >= rim.overlap0 && i < rim.root) surfaces["flange overlap rim"].push_back(in);
    }
  }
}

void name_weld(const WheelGeometry &g, Mesh &mesh) {
  static const int hex_face[4] = {0, 1, 4, 5};  // section a, b are the cell's a, c
  const int n_theta = g.chart().n_theta;
  for (const auto &f : g.weld().face)
    for (int k = 0; k < n_theta; ++k)
      mesh.surfaces["weld face"].push_back(
          {g.first_weld() + f.cell * n_theta + k, hex_face[f.face]});
}

/// Chart entities round a structured circle: vertex, edge, vertex, ... from theta = 0.
std::vector<int> circle_entities(const ChartMesh &chart, const ChartEntities &entities, double s) {
  std::vector<std::pair<double, int>> vertices;
  for (int v = 0; v < static_cast<int>(chart.nodes.size()); ++v)
    if (chart.nodes[v].hole < 0 && std::abs(chart.nodes[v].s - s) < at_circle)
      vertices.push_back({chart.nodes[v].theta, v});
  std::sort(vertices.begin(), vertices.end());
  std::vector<int> circle;
  for (std::size_t i = 0; i < vertices.size(); ++i) {
    const int v = vertices[i].second, next = vertices[(i + 1) % vertices.size()].second;
    circle.push_back(v);
    circle.push_back(entities.edge(v, next));
  }
  return circle;
}

}  // namespace

void name_surfaces(const WheelGeometry &g, Mesh &mesh) {
  for (int q = 0; q < static_cast<int>(g.chart().quads.size()); ++q) name_disc_quad(g, q, mesh);
  if (!g.has_rim()) return;
  name_rim(g, mesh);
  name_weld(g, mesh);
}

void name_lines(const WheelGeometry &g, const ChartEntities &entities, const SweptNodes &nodes,
                Mesh &mesh) {
  const ChartMesh &chart = g.chart();
  const WheelLayout &w = g.layout();
  const int outboard = 2 * g.layers();
  const auto add_circle = [&](const std::string &name, double s, int level) {
    for (const int e : circle_entities(chart, entities, s))
      mesh.lines[name].push_back(nodes.disc(e, level));
  };
  if (w.hub_face_s > 0) add_circle("hub face border", w.hub_face_s, 0);
  if (!has_flange(w)) add_circle("outer edge mid-line", w.disc.length(), g.layers());

  std::vector<std::vector<int>> wall(chart.holes.size());  // vertices of each hole by spoke
  for (std::size_t h = 0; h < wall.size(); ++h) wall[h].resize(chart.rings[h].phi.size(), -1);
  for (int v = 0; v < static_cast<int>(chart.nodes.size()); ++v)
    if (chart.nodes[v].hole >= 0 && chart.nodes[v].xi <= 0)
      wall[chart.nodes[v].hole][chart.nodes[v].spoke] = v;
  for (std::size_t h = 0; h < wall.size(); ++h) {
    const HoleName name(w, static_cast<int>(h));
    for (std::size_t i = 0; i < wall[h].size(); ++i) {
      const int v = wall[h][i], edge = entities.edge(v, wall[h][(i + 1) % wall[h].size()]);
      for (const int e : {v, edge}) {
        mesh.lines[name("edge outboard")].push_back(nodes.disc(e, outboard));
        mesh.lines[name("edge inboard")].push_back(nodes.disc(e, 0));
      }
    }
  }
  if (!g.has_rim()) return;
  for (int k = 0; k < nodes.n_half(); ++k) {
    mesh.lines["weld root"].push_back(nodes.weld(g.weld().root, k));
    mesh.lines["weld toe disc"].push_back(nodes.weld(g.weld().toe_disc, k));
    mesh.lines["weld toe rim"].push_back(nodes.weld(g.weld().toe_rim, k));
  }
}

}  // namespace felloe
