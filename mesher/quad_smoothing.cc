// SPDX-License-Identifier: GPL-3.0-or-later
// Node by node minimisation of the corners' shape energy.
#include "mesher/quad_smoothing.h"

#include <algorithm>
#include <cmath>

namespace felloe {
namespace {

/// Energy of the corners that a node takes part in, as a function of its place.
class NodeEnergy {
 public:
  NodeEnergy(const QuadPatch &patch, int node, const std::vector<int> &quads) {
    for (const int q : quads) {
      const auto &quad = patch.quads[q];
      for (int v = 0; v < 4; ++v) {
        if (quad[v].node != node) continue;
        // places relative to this copy of the node
        std::array<Vec2, 3> p;
        for (int k = 0; k < 3; ++k) {
          p[k] = patch.corner(quad[(v + k + 1) % 4]);
          p[k][1] -= quad[v].turn * patch.period;
        }
        fans_.push_back(p);
      }
    }
    double size = 0;
    const Vec2 &x = patch.nodes[node].at;
    for (const auto &p : fans_) size += std::hypot(p[0][0] - x[0], p[0][1] - x[1]);
    size_ = size / static_cast<double>(fans_.size());
    floor_ = 1e-3 * size_ * size_;
  }
  double size() const { return size_; }
  double at(const Vec2 &x) const {
    double sum = 0;
    for (const auto &p : fans_)  // quad x, p0, p1, p2: corners at x, p0 and p2
      sum += corner(x, p[0], p[2]) + corner(p[0], p[1], x) + corner(p[2], x, p[1]);
    return sum;
  }

 private:
  double corner(const Vec2 &o, const Vec2 &p, const Vec2 &q) const {
    const double ax = p[0] - o[0], ay = p[1] - o[1], bx = q[0] - o[0], by = q[1] - o[1];
    const double j = ax * by - ay * bx, positive = 0.5 * (j + std::sqrt(j * j + floor_ * floor_));
    const double ratio = (ax * ax + ay * ay + bx * bx + by * by) / (2 * positive + 1e-300);
    return ratio * ratio;
  }
  std::vector<std::array<Vec2, 3>> fans_;
  double size_ = 0, floor_ = 0;
};

/// Newton's step from differences, halved until the energy falls; steepest descent where the
/// energy is not convex. Returns the distance moved over the local edge length.
double move_node(const NodeEnergy &energy, Vec2 &x, bool along_x) {
  const double h = 1e-3 * energy.size(), f = energy.at(x);
  const auto shifted = [&](double dx, double dy) { return energy.at({x[0] + dx, x[1] + dy}); };
  const double xp = shifted(h, 0), xm = shifted(-h, 0);
  const double gx = (xp - xm) / (2 * h), hxx = (xp - 2 * f + xm) / (h * h);
  Vec2 step{};
  if (along_x) {
    step = {hxx > 0 ? -gx / hxx : -gx, 0};
  } else {
    const double yp = shifted(0, h), ym = shifted(0, -h);
    const double gy = (yp - ym) / (2 * h), hyy = (yp - 2 * f + ym) / (h * h);
    const double hxy = (shifted(h, h) - xp - yp + f) / (h * h);
    const double det = hxx * hyy - hxy * hxy;
    const bool convex = hxx > 0 && det > 1e-3 * hxx * hyy;
    step =
        convex ? Vec2{-(hyy * gx - hxy * gy) / det, -(hxx * gy - hxy * gx) / det} : Vec2{-gx, -gy};
    if (!convex) {
      const double l = std::hypot(gx, gy);
      if (!(l > 0)) return 0;
      for (double &d : step) d *= 0.5 * energy.size() / l;
    }
  }
  const double length = std::hypot(step[0], step[1]);
  if (!(length > 1e-7 * energy.size()) || !std::isfinite(length)) return 0;
  double c = std::min(1.0, 0.5 * energy.size() / length);
  for (int k = 0; k < 12; ++k, c *= 0.5) {
    const Vec2 y = {x[0] + c * step[0], x[1] + c * step[1]};
    if (energy.at(y) < f) {
      x = y;
      return c * length / energy.size();
    }
  }
  return 0;
}

}  // namespace

double scaled_jacobian(const std::array<Vec2, 4> &p) {
  double worst = 1;
  for (int v = 0; v < 4; ++v) {
    const Vec2 &o = p[v], &q = p[(v + 1) % 4], &r = p[(v + 3) % 4];
    const double ax = q[0] - o[0], ay = q[1] - o[1], bx = r[0] - o[0], by = r[1] - o[1];
    worst = std::min(worst, (ax * by - ay * bx) / (std::hypot(ax, ay) * std::hypot(bx, by)));
  }
  return worst;
}

double smallest_scaled_jacobian(const QuadPatch &patch) {
  double worst = 1;
  for (const auto &q : patch.quads)
    worst = std::min(worst, scaled_jacobian({patch.corner(q[0]), patch.corner(q[1]),
                                             patch.corner(q[2]), patch.corner(q[3])}));
  return worst;
}

void smooth(QuadPatch &patch, int sweeps) {
  std::vector<std::vector<int>> quads_of(patch.nodes.size());
  for (std::size_t q = 0; q < patch.quads.size(); ++q)
    for (const auto &c : patch.quads[q]) quads_of[c.node].push_back(static_cast<int>(q));
  for (auto &list : quads_of) list.erase(std::unique(list.begin(), list.end()), list.end());
  for (int sweep = 0; sweep < sweeps; ++sweep) {
    double farthest = 0;
    for (std::size_t n = 0; n < patch.nodes.size(); ++n) {
      PatchNode &node = patch.nodes[n];
      if (node.freedom == Freedom::fixed || quads_of[n].empty()) continue;
      const NodeEnergy energy(patch, static_cast<int>(n), quads_of[n]);
      farthest = std::max(farthest, move_node(energy, node.at, node.freedom == Freedom::along_x));
    }
    if (farthest < 1e-4) break;
  }
}

}  // namespace felloe
