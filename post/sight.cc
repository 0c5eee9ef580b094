// SPDX-License-Identifier: GPL-3.0-or-later
#include "post/sight.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace felloe {
namespace {

/// Points may lie this deep under the surface [mm]: hot spots come from nodes, the surface is made
/// of chords.
constexpr double clearance = 1;
constexpr double grazing = 0.05;  // cosine to the eye below which a surface shows nothing

}  // namespace

SurfacePoint surface_point(const Skin &skin, const Vec3 &position) {
  constexpr double same_place = 1e-3;  // [mm]
  SurfacePoint point{position, {}};
  double nearest = std::numeric_limits<double>::max();
  for (std::size_t i = 0; i < skin.points.size(); ++i) {
    const Vec3 d = subtract(skin.points[i], position);
    if (std::abs(d[0]) > nearest + same_place) continue;
    const double away = norm(d);
    if (away > nearest + same_place) continue;
    if (away < nearest - same_place) point.normals.clear();
    nearest = std::min(nearest, away);
    point.normals.push_back(skin.normals[i]);
  }
  return point;
}

bool in_sight(const Skin &skin, const SurfacePoint &point, const Vec3 &towards_eye) {
  return std::any_of(point.normals.begin(), point.normals.end(),
                     [&](const Vec3 &n) { return dot(n, towards_eye) > grazing; }) &&
         visible(skin, point.position, towards_eye, clearance);
}

std::optional<std::size_t> largest_in_sight(const Skin &skin, const std::vector<bool> &counts,
                                            const Vec3 &towards_eye,
                                            const std::function<bool(const Vec3 &)> &inside) {
  constexpr double well_seen = 0.2, apart = 4;  // cosine; [mm] from points that were hidden
  constexpr int most_trials = 60;
  const std::size_t a_face = skin.points.size() / std::max<std::size_t>(1, counts.size());
  std::vector<std::size_t> facing;
  for (std::size_t i = 0; i < skin.points.size(); ++i)
    if (counts[i / a_face] && dot(skin.normals[i], towards_eye) > well_seen) facing.push_back(i);
  std::sort(facing.begin(), facing.end(),
            [&](std::size_t a, std::size_t b) { return skin.values[a] > skin.values[b]; });
  std::vector<Vec3> hidden;
  for (const std::size_t i : facing) {
    const Vec3 &x = skin.points[i];
    if (std::any_of(hidden.begin(), hidden.end(),
                    [&](const Vec3 &h) { return norm(subtract(h, x)) < apart; }))
      continue;
    if (inside(x) && visible(skin, x, towards_eye, clearance)) return i;
    hidden.push_back(x);
    if (hidden.size() >= most_trials) break;
  }
  return std::nullopt;
}

}  // namespace felloe
