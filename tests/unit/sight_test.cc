// SPDX-License-Identifier: GPL-3.0-or-later
// What a picture's direction shows of the surface.
#include "post/sight.h"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/support/simple_wheel.h"

namespace felloe {
namespace {

Vec3 unit(const Vec3 &v) { return scale(1 / norm(v), v); }

Vec3 on_disc(double r, double theta, double above_middle) {
  return {r * std::cos(theta), r * std::sin(theta), test::bowl(r) + above_middle};
}

Mesh scaled(double factor) {
  Mesh mesh = test::toy_wheel();
  for (Vec3 &x : mesh.nodes) x = scale(factor, x);
  return mesh;
}

const Vec3 front{0.24, 0.17, 1}, back{-0.17, 0.12, -1};

/// The toy wheel, whose disc is 4 mm thick, or a smaller one; two_peaks() on its surface.
Skin surface(double factor = 1) {
  const Mesh mesh = scaled(factor);
  return skin(mesh, boundary_faces(mesh), test::two_peaks(mesh), 4, 0.6);
}

bool seen(const Skin &wheel, const Vec3 &place, const Vec3 &towards_eye) {
  return in_sight(wheel, surface_point(wheel, place), towards_eye);
}

TEST(Sight, AFaceOfTheDiscIsSeenFromItsOwnSideOnly) {
  const Skin wheel = surface();
  EXPECT_TRUE(seen(wheel, on_disc(120, 0.6, 2), unit(front)));
  EXPECT_FALSE(seen(wheel, on_disc(120, 0.6, 2), unit(back)));
  EXPECT_FALSE(seen(wheel, on_disc(120, 0.6, -2), unit(front)));
  EXPECT_TRUE(seen(wheel, on_disc(120, 0.6, -2), unit(back)));
}

// On the wall of the bore of a disc of 2 mm, half a millimetre below the outboard face: less than
// chords may hide, yet seen only where the wall is turned to the eye.
TEST(Sight, AWallIsSeenFromWhereItIsTurnedTo) {
  const Skin wheel = surface(0.5);
  const Vec3 place = scale(0.5, on_disc(32, 0, 1));  // its normal points to the axis: -x
  EXPECT_TRUE(seen(wheel, place, unit({-0.4, 0, 1})));
  EXPECT_FALSE(seen(wheel, place, unit({0.4, 0, 1})));
}

// The peak of 180 at (120, 0.6) is the same on both faces of the disc.
TEST(Sight, TheLargestInSightIsThePeakOnTheNearFace) {
  const Skin wheel = surface();
  for (const Vec3 &direction : {front, back}) {
    const std::vector<bool> all(boundary_faces(scaled(1)).size(), true);
    const auto largest =
        largest_in_sight(wheel, all, unit(direction), [](const Vec3 &) { return true; });
    ASSERT_TRUE(largest.has_value());
    const Vec3 &x = wheel.points[*largest];
    EXPECT_LT(std::hypot(x[0] - 120 * std::cos(0.6), x[1] - 120 * std::sin(0.6)), 6);
    EXPECT_EQ(x[2] > test::bowl(120), direction[2] > 0);
    EXPECT_TRUE(seen(wheel, x, unit(direction)));
  }
}

}  // namespace
}  // namespace felloe
