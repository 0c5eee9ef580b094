// SPDX-License-Identifier: GPL-3.0-or-later
// Joins circles, rings and filled bands to one mesh by number.
#include "mesher/chart_mesh.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include "mesher/bands.h"
#include "mesher/chart_halving.h"
#include "mesher/hole_band.h"
#include "mesher/hole_ring.h"

namespace felloe {
namespace {

double reduced(double theta) {
  double t = std::fmod(theta, 2 * pi);
  if (t < -1e-12) t += 2 * pi;
  return t < 1e-12 || t > 2 * pi - 1e-12 ? 0 : t;
}

/// Puts the bands together; nodes are joined by number, never by place.
class ChartBuilder {
 public:
  ChartBuilder(const WheelLayout &l, const MeshSize &size) : layout_(l), size_(size) {
    mesh_.n_theta = circle_divisions(l, size);
    mesh_.symmetry = symmetry();
    mesh_.holes = l.bolts;
    mesh_.holes.insert(mesh_.holes.end(), l.vents.begin(), l.vents.end());
    mesh_.rings.resize(mesh_.holes.size());
  }

  ChartMesh build() {
    const auto rows = hole_rows(layout_, size_);
    const Bands cut = bands(layout_, size_, rows, mesh_.n_theta);
    mesh_.circles = cut.circles;
    shifts_ = circle_shifts(layout_, cut, rows, mesh_.n_theta);
    for (std::size_t c = 0; c < cut.circles.size(); ++c) {
      const double s = cut.circles[c];
      if (has_flange(layout_) && s > layout_.flange_s0 - 1e-9) mesh_.flange_s.push_back(s);
      for (int k = 0; k < mesh_.n_theta; ++k) add_node(s, shifts_[c] + 2 * pi * k / mesh_.n_theta);
    }
    for (std::size_t b = 0; b < cut.row.size(); ++b)
      if (cut.row[b] < 0)
        add_structured_band(static_cast<int>(b));
      else
        add_hole_band(static_cast<int>(b), rows[cut.row[b]]);
    return std::move(mesh_);
  }

 private:
  /// Without holes the shape repeats under any turn; the mesh under that of one division.
  int symmetry() const {
    const int holes = static_cast<int>(std::gcd(layout_.bolts.size(), layout_.vents.size()));
    if (holes == 0)
      return layout_.symmetry > 0 ? std::gcd(layout_.symmetry, mesh_.n_theta) : mesh_.n_theta;
    return layout_.symmetry > 0 ? std::gcd(holes, layout_.symmetry) : holes;
  }
  int add_node(double s, double theta) {
    ChartNode node;
    node.s = s;
    node.theta = reduced(theta);
    mesh_.nodes.push_back(node);
    return static_cast<int>(mesh_.nodes.size()) - 1;
  }
  int circle_node(int circle, int k) const { return circle * mesh_.n_theta + k % mesh_.n_theta; }
  void add_structured_band(int b) {
    for (int k = 0; k < mesh_.n_theta; ++k)
      mesh_.quads.push_back({{circle_node(b, k), circle_node(b + 1, k), circle_node(b, k + 1),
                              circle_node(b + 1, k + 1)},
                             -1});
  }

  void add_hole_band(int b, const HoleRow &row) {
    HoleBand band;
    band.name = row.name;
    band.holes = row.holes;
    band.sigma0 = layout_.disc.sigma(mesh_.circles[b]);
    band.sigma1 = layout_.disc.sigma(mesh_.circles[b + 1]);
    band.n_theta = mesh_.n_theta;
    band.shift = shifts_[b];
    band.symmetry = std::gcd(mesh_.symmetry, static_cast<int>(row.holes.size()));
    band.ring_width = row.ring_width;
    band.ring_edges = size_.ring_edges;
    const FilledBand filled = fill_band(layout_.disc, band);
    const std::vector<int> border = add_rings(row, filled.rings);
    const int n_phi = static_cast<int>(filled.rings.front().phi.size());
    std::map<double, double> s_of_sigma;  // copies get identical s
    std::vector<int> index;
    for (const BandNode &node : filled.nodes) switch (node.place) {
        case BandPlace::lower_circle:
          index.push_back(circle_node(b, node.index));
          break;
        case BandPlace::upper_circle:
          index.push_back(circle_node(b + 1, node.index));
          break;
        case BandPlace::ring:
          index.push_back(border[node.hole * n_phi + node.index]);
          break;
        case BandPlace::inner: {
          const auto [at, added] = s_of_sigma.emplace(node.at[0], 0.0);
          if (added) at->second = layout_.disc.s_at(node.at[0]);
          index.push_back(add_node(at->second, node.at[1]));
        }
      }
    for (const auto &q : filled.quads)
      mesh_.quads.push_back({{index[q[0]], index[q[1]], index[q[2]], index[q[3]]}, -1});
  }

  /// Nodes and quads of a row's rings. Returns the border nodes, n_phi a hole.
  std::vector<int> add_rings(const HoleRow &row, const std::vector<HoleRing> &rings) {
    const Sheet &disc = layout_.disc;
    const int n_phi = static_cast<int>(rings.front().phi.size());
    Hole hole = row.holes.front();
    hole.theta = 0;
    const HoleRing at_zero = turned_ring(rings.front(), 0);
    const double width = at_zero.border[0][0] - wall_point(disc, hole, 0, -1)[0];
    const double first = size_.ring_first * hole.radius / disc.section_point(hole.s, 0)[0] / width;
    const std::vector<double> xi = ring_layer_borders(size_.ring_layers, first);
    const int n_xi = static_cast<int>(xi.size());
    std::vector<ChartNode> nodes;  // of one ring, theta from its centre
    for (int i = 0; i < n_xi; ++i)
      for (int m = 0; m < n_phi; ++m) {
        const auto p = ring_point(disc, hole, at_zero, m, 0, xi[i], 0);
        nodes.push_back({disc.s_at(p[0]), p[1], -1, xi[i], m});
      }
    std::vector<int> border;
    for (std::size_t h = 0; h < rings.size(); ++h) {
      const int number = row.first + static_cast<int>(h);
      mesh_.rings[number] = rings[h];
      const int base = static_cast<int>(mesh_.nodes.size());
      for (ChartNode node : nodes) {
        node.hole = number;
        node.theta = reduced(rings[h].centre_theta + node.theta);
        mesh_.nodes.push_back(node);
      }
      const auto at = [&](int i, int m) { return base + i * n_phi + m % n_phi; };
      for (int i = 0; i + 1 < n_xi; ++i)
        for (int m = 0; m < n_phi; ++m)
          mesh_.quads.push_back({{at(i, m), at(i + 1, m), at(i, m + 1), at(i + 1, m + 1)}, number});
      for (int m = 0; m < n_phi; ++m) border.push_back(at(n_xi - 1, m));
    }
    return border;
  }

  const WheelLayout &layout_;
  const MeshSize &size_;
  std::vector<double> shifts_;  // of each circle
  ChartMesh mesh_;
};

}  // namespace

ChartMesh chart_mesh(const WheelLayout &layout, const MeshSize &size) {
  ChartMesh mesh = ChartBuilder(layout, size).build();
  for (int i = 0; i < size.halvings; ++i) mesh = halved(layout, mesh);
  return mesh;
}

}  // namespace felloe
