// SPDX-License-Identifier: GPL-3.0-or-later
// What of a surface is seen from one direction.
#pragma once
#include <functional>
#include <optional>
#include <vector>

#include "post/skin.h"

namespace felloe {

/// A point of a surface, and the normals of all faces that meet there.
struct SurfacePoint {
  Vec3 position{};
  std::vector<Vec3> normals;
};
/// normals: those of the skin's points nearest to the position.
SurfacePoint surface_point(const Skin &, const Vec3 &position);

/// Whether a point of the surface is seen: some surface there is turned to the eye, and nothing is
/// in the way. Places on the wall of a hole are seen through the hole or not at all, however near
/// its edge they lie. towards_eye: unit.
bool in_sight(const Skin &, const SurfacePoint &, const Vec3 &towards_eye);

/// The point with the largest value of those that are seen, as an index into the skin; none when
/// the search gives up.
/// @param counts  of each face that the skin was made of, whether its points count
/// @param inside  whether a point lies within the picture
std::optional<std::size_t> largest_in_sight(const Skin &, const std::vector<bool> &counts,
                                            const Vec3 &towards_eye,
                                            const std::function<bool(const Vec3 &)> &inside);

}  // namespace felloe
