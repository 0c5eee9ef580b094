// SPDX-License-Identifier: GPL-3.0-or-later
// A mid-line in the meridian plane: straights and bend arcs, tangent to each other, by arc length.
#pragma once
#include <string>
#include <vector>

#include "mesher/vec3.h"

namespace felloe {

/// One straight or one bend of a mid-line.
struct MeridianPiece {
  double s0 = 0, s1 = 0;  ///< arc length at begin and end [mm]
  Vec2 start{};           ///< (r, z) at s0 [mm]
  Vec2 direction{};       ///< unit tangent at s0
  double curvature = 0;   ///< signed 1/R [1/mm]; positive turns from +r towards +z; 0: straight
  bool is_bend() const { return curvature != 0; }
};

/// Corner of the polygon that the mid-line rounds.
struct MeridianCorner {
  Vec2 rz{};
  double bend_radius = 0;
};

/// Position, unit tangent and unit normal (tangent turned by +90 degrees from r to z).
struct MeridianFrame {
  Vec2 rz{}, tangent{}, normal{};
};

/// The rounded polygon. Throws Error naming the corner (counted from 0 = start) when a bend does
/// not fit on its legs or two corners coincide.
class Meridian {
 public:
  Meridian() = default;
  explicit Meridian(const std::vector<MeridianCorner> &corners);
  double length() const { return pieces_.empty() ? 0 : pieces_.back().s1; }
  const std::vector<MeridianPiece> &pieces() const { return pieces_; }
  /// s is clamped to straight continuations beyond both ends.
  MeridianFrame at(double s) const;
  /// The smallest s at which the radius is r, or a negative number where there is none.
  double first_s_at_radius(double r) const;

 private:
  std::vector<MeridianPiece> pieces_;
};

}  // namespace felloe
