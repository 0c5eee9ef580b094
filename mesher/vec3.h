// SPDX-License-Identifier: GPL-3.0-or-later
// Points and vectors of the wheel frame, lengths in mm.
#pragma once
#include <array>
#include <cmath>

namespace felloe {

constexpr double pi = 3.14159265358979323846;

/// (x, y, z) in the wheel frame: origin on the wheel axis in the hub face, z along the axis
/// towards the vehicle's outside [mm].
using Vec3 = std::array<double, 3>;

/// (r, z) in a meridian half plane [mm].
using Vec2 = std::array<double, 2>;

inline Vec3 add(const Vec3 &a, const Vec3 &b) { return {a[0] + b[0], a[1] + b[1], a[2] + b[2]}; }
inline Vec3 subtract(const Vec3 &a, const Vec3 &b) {
  return {a[0] - b[0], a[1] - b[1], a[2] - b[2]};
}
inline Vec3 scale(double c, const Vec3 &a) { return {c * a[0], c * a[1], c * a[2]}; }
inline double dot(const Vec3 &a, const Vec3 &b) { return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]; }
inline Vec3 cross(const Vec3 &a, const Vec3 &b) {
  return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
}
inline double norm(const Vec3 &a) { return std::sqrt(dot(a, a)); }

/// The point of the meridian (r, z) turned to the angle theta [rad].
inline Vec3 revolved(const Vec2 &rz, double theta) {
  return {rz[0] * std::cos(theta), rz[0] * std::sin(theta), rz[1]};
}

}  // namespace felloe
