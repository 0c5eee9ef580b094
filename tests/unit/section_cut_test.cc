// SPDX-License-Identifier: GPL-3.0-or-later
// The meridian section of a body of revolution is its generating area, at every angle.
#include "post/section_cut.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "tests/support/simple_wheel.h"

namespace felloe {
namespace {

double area(const SectionCut &cut) {
  double sum = 0;
  for (const auto &t : cut.triangles) {
    const Vec2 &a = cut.points[t[0]], &b = cut.points[t[1]], &c = cut.points[t[2]];
    sum += std::abs((b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1])) / 2;
  }
  return sum;
}

// 20 mm x 5 mm. Chords of the pieces (24 quadratic arcs in 3) shrink radii by at most
// 1 - cos(pi / 72) = 1e-3, so the width by 1e-3 of itself. Angles 0 and pi / 12 lie in a layer of
// nodes, where every cell face would be met twice or not at all without care.
TEST(SectionCut, OfARingIsItsRectangleAtEveryAngle) {
  const Mesh ring = test::ring(24);
  const std::vector<double> values(ring.nodes.size());
  const Skin s = skin(ring, boundary_faces(ring), values, 2, 1);
  for (const double theta : {0.0, pi / 12, -pi / 12, pi / 24, 0.1, 3.0, pi, -2.5})
    EXPECT_NEAR(area(section_cut(ring, values, s, theta, 3)) / 100, 1, 1.1e-3) << theta;
}

TEST(SectionCut, CarriesTheFieldAndTheOutline) {
  const Mesh ring = test::ring(24);
  std::vector<double> values;
  for (const Vec3 &x : ring.nodes) values.push_back(7 * x[2]);
  const Skin s = skin(ring, boundary_faces(ring), values, 2, 1);
  const SectionCut cut = section_cut(ring, values, s, 0.4, 3);
  for (std::size_t i = 0; i < cut.points.size(); ++i)
    ASSERT_NEAR(cut.values[i], 7 * cut.points[i][1], 1e-9);  // linear: exact
  double length = 0;
  for (const auto &piece : cut.outline)
    length += std::hypot(piece[1][0] - piece[0][0], piece[1][1] - piece[0][1]);
  EXPECT_NEAR(length / 50, 1, 2e-3);  // 2 (20 + 5) mm, chords as above but twice as long
}

}  // namespace
}  // namespace felloe
