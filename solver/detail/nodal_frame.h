// SPDX-License-Identifier: GPL-3.0-or-later
// The axes in which the unknowns of a node count.
#pragma once
#include <array>
#include <vector>

#include "solver/elastic_model.h"

namespace felloe::detail {

/// Rows: the three axes of a node in the wheel frame.
using Axes = std::array<Vec3, 3>;

/// Cartesian, or (e_r, e_theta, e_z) at the point; on the axis of the wheel e_r = x.
inline Axes axes_at(const Vec3 &x, NodalFrame frame) {
  const double r = std::hypot(x[0], x[1]);
  if (frame == NodalFrame::cartesian || r == 0) return {{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}};
  const double c = x[0] / r, s = x[1] / r;
  return {{{c, s, 0}, {-s, c, 0}, {0, 0, 1}}};
}

inline std::vector<Axes> node_axes(const Mesh &mesh, NodalFrame frame) {
  std::vector<Axes> axes;
  axes.reserve(mesh.nodes.size());
  for (const Vec3 &x : mesh.nodes) axes.push_back(axes_at(x, frame));
  return axes;
}

/// Components of a wheel-frame vector along the axes.
inline Vec3 along(const Axes &axes, const Vec3 &v) {
  return {dot(axes[0], v), dot(axes[1], v), dot(axes[2], v)};
}

/// The wheel-frame vector with these components along the axes.
inline Vec3 from(const Axes &axes, const Vec3 &c) {
  return add(add(scale(c[0], axes[0]), scale(c[1], axes[1])), scale(c[2], axes[2]));
}

}  // namespace felloe::detail
