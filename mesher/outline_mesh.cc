// SPDX-License-Identifier: GPL-3.0-or-later
#include "mesher/outline_mesh.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "mesher/error.h"
#include "mesher/planar_fill.h"

namespace felloe {
namespace {

/// Parameters 0 ... 1 of an even number of steps whose sizes go geometrically from one to the
/// other.
std::vector<double> graded(double length, double from, double to) {
  const double middle = std::abs(to / from - 1) < 1e-6 ? from : (to - from) / std::log(to / from);
  const int n = 2 * std::max(1, static_cast<int>(std::ceil(0.5 * length / middle - 1e-9)));
  const double ratio = std::pow(to / from, 1.0 / std::max(1, n - 1));
  std::vector<double> at = {0};
  double step = 1;
  for (int i = 0; i < n; ++i, step *= ratio) at.push_back(at.back() + step);
  for (double &x : at) x /= at.back();
  at.pop_back();
  at.push_back(1);
  return at;
}

/// The outline's nodes, with the middles of its edges and their names.
struct Loop {
  std::vector<Vec2> nodes, middles;
  std::vector<std::string> names;
};

Loop loop_of(const Vec2 &start, const std::vector<OutlineEdge> &outline) {
  Loop loop;
  Vec2 from = start;
  for (const OutlineEdge &e : outline) {
    const Vec2 c = e.centre.value_or(Vec2{});
    const double radius = std::hypot(from[0] - c[0], from[1] - c[1]);
    const double first = std::atan2(from[1] - c[1], from[0] - c[0]);
    double turn = std::atan2(e.to[1] - c[1], e.to[0] - c[0]) - first;
    if (e.clockwise && turn > 0) turn -= 2 * pi;
    if (!e.clockwise && turn < 0) turn += 2 * pi;
    const double length =
        e.centre ? radius * std::abs(turn) : std::hypot(e.to[0] - from[0], e.to[1] - from[1]);
    const auto point = [&](double x) -> Vec2 {
      if (e.centre)
        return {c[0] + radius * std::cos(first + x * turn),
                c[1] + radius * std::sin(first + x * turn)};
      return {from[0] + x * (e.to[0] - from[0]), from[1] + x * (e.to[1] - from[1])};
    };
    const std::vector<double> at = graded(length, e.size_from, e.size_to);
    for (std::size_t i = 0; i + 1 < at.size(); ++i) {
      loop.nodes.push_back(point(at[i]));
      loop.middles.push_back(point(0.5 * (at[i] + at[i + 1])));
      loop.names.push_back(e.name);
    }
    from = e.to;
  }
  return loop;
}

/// Sine of the sharpest corner, negative when one is turned over.
double worst_corner(const PlanarQuads &q) {
  double worst = 1;
  for (const auto &quad : q.quads)
    for (int i = 0; i < 4; ++i) {
      const Vec2 &p = q.nodes[quad[i]], &a = q.nodes[quad[(i + 1) % 4]],
                 &b = q.nodes[quad[(i + 3) % 4]];
      const double ax = a[0] - p[0], ay = a[1] - p[1], bx = b[0] - p[0], by = b[1] - p[1];
      worst = std::min(worst, (ax * by - ay * bx) / (std::hypot(ax, ay) * std::hypot(bx, by)));
    }
  return worst;
}

}  // namespace

SectionMesh outline_mesh(const Vec2 &start, const std::vector<OutlineEdge> &outline, Part part) {
  const Loop loop = loop_of(start, outline);
  const int n = static_cast<int>(loop.nodes.size());
  PlanarQuads best;
  double quality = 0.02;  // below it the element's map is not to be trusted
  for (const FillTrial &trial : fill_trials()) {
    PlanarQuads quads = planar_fill({loop.nodes}, trial);
    const double its = quads.quads.empty() ? 0 : worst_corner(quads);
    if (its > quality) quality = its, best = std::move(quads);
  }
  if (best.quads.empty())
    throw Error("section outline of " + std::to_string(n) +
                " nodes: no mesh without a corner turned over; take a larger radius or cells of "
                "more equal size");
  SectionMesh mesh;
  mesh.nodes = best.nodes;
  std::map<std::pair<int, int>, int> middles;
  const auto middle = [&](int a, int b) {
    const auto key = std::minmax(a, b);
    const auto [at, is_new] = middles.emplace(key, static_cast<int>(mesh.nodes.size()));
    if (is_new) {
      const int low = key.first, high = key.second;
      const bool on_loop = high < n && (high == low + 1 || (low == 0 && high == n - 1));
      const Vec2 &p = mesh.nodes[a], &q = mesh.nodes[b];
      mesh.nodes.push_back(on_loop ? loop.middles[high == low + 1 ? low : high]
                                   : Vec2{0.5 * (p[0] + q[0]), 0.5 * (p[1] + q[1])});
    }
    return at->second;
  };
  constexpr int face_of_side[4] = {2, 1, 3, 0};
  for (const auto &q : best.quads) {
    const int cell = static_cast<int>(mesh.cells.size());
    int m[4];
    Vec2 centre{};
    for (int i = 0; i < 4; ++i) {
      const int a = q[i], b = q[(i + 1) % 4];
      m[i] = middle(a, b);
      if (a < n && b == (a + 1) % n && !loop.names[a].empty())
        mesh.edges[loop.names[a]].push_back({cell, face_of_side[i]});
      for (int d = 0; d < 2; ++d) centre[d] += 0.5 * mesh.nodes[m[i]][d] - 0.25 * mesh.nodes[a][d];
    }
    mesh.nodes.push_back(centre);
    const int c = static_cast<int>(mesh.nodes.size()) - 1;
    mesh.cells.push_back({q[0], m[0], q[1], m[3], c, m[1], q[3], m[2], q[2]});
  }
  mesh.parts.assign(mesh.cells.size(), part);
  mesh.node_parts.assign(mesh.nodes.size(), part);
  mesh.node_points.resize(mesh.nodes.size());
  return mesh;
}

}  // namespace felloe
