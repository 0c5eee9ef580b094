// SPDX-License-Identifier: GPL-3.0-or-later
// New nodes at the middles of edges and quads, taken in parameters.
#include "mesher/chart_halving.h"

#include <algorithm>
#include <cmath>

#include "mesher/bands.h"
#include "mesher/chart_entities.h"
#include "mesher/hole_ring.h"

namespace felloe {
namespace {

double reduced(double theta) {
  double t = std::fmod(theta, 2 * pi);
  if (t < -1e-12) t += 2 * pi;
  return t < 1e-12 || t > 2 * pi - 1e-12 ? 0 : t;
}

double unwrapped(double theta, double reference) {
  return theta - 2 * pi * std::round((theta - reference) / (2 * pi));
}

HoleRing halved_ring(const HoleRing &ring) {
  HoleRing fine = ring;
  fine.phi.clear();
  fine.border.clear();
  const std::size_t n = ring.phi.size();
  for (std::size_t m = 0; m < n; ++m) {
    const std::size_t next = (m + 1) % n;
    const auto &p = ring.border[m], &q = ring.border[next];
    fine.phi.push_back(ring.phi[m]);
    fine.phi.push_back(0.5 * (ring.phi[m] + ring.phi[next] + (next == 0 ? 2 * pi : 0)));
    fine.border.push_back(p);
    fine.border.push_back({0.5 * (p[0] + q[0]), 0.5 * (p[1] + q[1])});
  }
  return fine;
}

class Halving {
 public:
  Halving(const WheelLayout &l, const ChartMesh &coarse)
      : layout_(l), coarse_(coarse), entities_(coarse), nodes_(entities_.count) {}

  ChartMesh build() {
    ChartMesh fine;
    fine.n_theta = 2 * coarse_.n_theta;
    fine.symmetry = coarse_.symmetry;
    fine.holes = coarse_.holes;
    for (const HoleRing &ring : coarse_.rings) fine.rings.push_back(halved_ring(ring));
    place_nodes();
    number_circles(fine);
    for (int e = 0; e < entities_.count; ++e)
      if (number_[e] < 0) {
        number_[e] = static_cast<int>(fine.nodes.size());
        fine.nodes.push_back(nodes_[e]);
      }
    for (std::size_t q = 0; q < coarse_.quads.size(); ++q)
      for (int j = 0; j < 2; ++j)
        for (int i = 0; i < 2; ++i) {
          const auto at = [&](int a, int b) { return number_[entities_.quads[q][a + 3 * b]]; };
          fine.quads.push_back(
              {{at(i, j), at(i + 1, j), at(i, j + 1), at(i + 1, j + 1)}, coarse_.quads[q].hole});
        }
    return fine;
  }

 private:
  void place_nodes() {
    std::copy(coarse_.nodes.begin(), coarse_.nodes.end(), nodes_.begin());
    for (ChartNode &n : nodes_) n.spoke *= 2;
    for (std::size_t q = 0; q < coarse_.quads.size(); ++q)
      if (coarse_.quads[q].hole < 0) place_plain(q);
    for (std::size_t q = 0; q < coarse_.quads.size(); ++q)  // they own the edges on their border
      if (coarse_.quads[q].hole >= 0) place_in_ring(q);
  }

  /// Straight in (sigma, theta). Sums run over opposite corners first, so that turned and mirrored
  /// quads get identical numbers.
  void place_plain(std::size_t q) {
    const Sheet &disc = layout_.disc;
    double sigma[4], theta[4];
    for (int c = 0; c < 4; ++c) {
      const ChartNode &n = coarse_.nodes[coarse_.quads[q].nodes[c]];
      const bool border = n.hole >= 0 && n.xi >= 1;
      sigma[c] = border ? coarse_.rings[n.hole].border[n.spoke][0] : disc.sigma(n.s);
      theta[c] = unwrapped(n.theta, coarse_.nodes[coarse_.quads[q].nodes[0]].theta);
    }
    const auto put = [&](int place, double s, double angle) {
      ChartNode &n = nodes_[entities_.quads[q][place]];
      n = {};
      n.s = disc.s_at(s);
      n.theta = reduced(angle);
    };
    const auto put_edge = [&](int place, int a, int b) {
      put(place, 0.5 * (sigma[a] + sigma[b]), 0.5 * (theta[a] + theta[b]));
      const ChartNode &first = coarse_.nodes[coarse_.quads[q].nodes[a]];
      if (first.s == coarse_.nodes[coarse_.quads[q].nodes[b]].s)
        nodes_[entities_.quads[q][place]].s = first.s;
    };
    put_edge(1, 0, 1);
    put_edge(3, 0, 2);
    put_edge(5, 1, 3);
    put_edge(7, 2, 3);
    put(4, 0.25 * ((sigma[0] + sigma[3]) + (sigma[1] + sigma[2])),
        0.25 * ((theta[0] + theta[3]) + (theta[1] + theta[2])));
  }

  void place_in_ring(std::size_t q) {
    const ChartQuad &quad = coarse_.quads[q];
    const ChartNode &inner = coarse_.nodes[quad.nodes[0]], &outer = coarse_.nodes[quad.nodes[1]];
    Hole hole = coarse_.holes[quad.hole];
    const double turn = coarse_.rings[quad.hole].centre_theta;
    hole.theta = 0;  // copies get identical numbers
    const HoleRing ring = turned_ring(coarse_.rings[quad.hole], 0);
    const int n_phi = static_cast<int>(ring.phi.size());
    for (int j = 0; j < 3; ++j)
      for (int i = 0; i < 3; ++i) {
        if (i != 1 && j != 1) continue;
        ChartNode &n = nodes_[entities_.quads[q][i + 3 * j]];
        n.hole = quad.hole;
        n.spoke = (2 * inner.spoke + j) % (2 * n_phi);
        n.xi = i == 0 ? inner.xi : i == 2 ? outer.xi : 0.5 * (inner.xi + outer.xi);
        const auto p =
            j == 2 ? ring_point(layout_.disc, hole, ring, (inner.spoke + 1) % n_phi, 0, n.xi, 0)
                   : ring_point(layout_.disc, hole, ring, inner.spoke, 0.5 * j, n.xi, 0);
        n.s = layout_.disc.s_at(p[0]);
        n.theta = reduced(turn + p[1]);
      }
  }

  /// Former circles with their edges' middles; between the circles of structured bands one more.
  void number_circles(ChartMesh &fine) {
    const int n = coarse_.n_theta, n_circles = static_cast<int>(coarse_.circles.size());
    std::vector<int> cells(n_circles, 0);  // of the structured band above each circle
    const auto edge = [&](int a, int b) { return entities_.edges.at(std::minmax(a, b)); };
    std::vector<std::vector<int>> middle(n_circles, std::vector<int>(n, -1));
    for (std::size_t q = 0; q < coarse_.quads.size(); ++q) {
      const auto &c = coarse_.quads[q].nodes;
      const int circle = c[0] / n, k = c[0] % n;
      if (circle + 1 >= n_circles || c[1] != c[0] + n || c[2] != circle * n + (k + 1) % n) continue;
      middle[circle][k] = entities_.quads[q][4];
      ++cells[circle];
    }
    number_.assign(entities_.count, -1);
    const auto add = [&](int entity) {
      ChartNode node = nodes_[entity];
      const int k = static_cast<int>(fine.nodes.size()) % fine.n_theta;
      const double on_grid = 2 * pi * k / fine.n_theta;
      if (std::abs(node.theta - on_grid) < 1e-12) node.theta = on_grid;  // else: a turned circle
      number_[entity] = static_cast<int>(fine.nodes.size());
      fine.nodes.push_back(node);
    };
    for (int c = 0; c < n_circles; ++c) {
      fine.circles.push_back(coarse_.circles[c]);
      for (int k = 0; k < n; ++k) {
        add(c * n + k);
        add(edge(c * n + k, c * n + (k + 1) % n));
      }
      if (cells[c] < n) continue;  // holes, or the last circle
      fine.circles.push_back(
          circle_between(layout_.disc, coarse_.circles[c], coarse_.circles[c + 1]));
      for (int k = 0; k < n; ++k) {
        add(edge(c * n + k, (c + 1) * n + k));
        add(middle[c][k]);
      }
    }
    if (has_flange(layout_))
      for (const double s : fine.circles)
        if (s > layout_.flange_s0 - 1e-9) fine.flange_s.push_back(s);
  }

  const WheelLayout &layout_;
  const ChartMesh &coarse_;
  const ChartEntities entities_;
  std::vector<ChartNode> nodes_;  // of every entity
  std::vector<int> number_;       // of every entity among the fine nodes
};

}  // namespace

ChartMesh halved(const WheelLayout &layout, const ChartMesh &coarse) {
  return Halving(layout, coarse).build();
}

double circle_between(const Sheet &disc, double s0, double s1) {
  return disc.s_at(0.5 * (disc.sigma(s0) + disc.sigma(s1)));
}

}  // namespace felloe
