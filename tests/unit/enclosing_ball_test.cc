// SPDX-License-Identifier: GPL-3.0-or-later
// Proves the smallest circle and hypersphere round a path.
#include "post/enclosing_ball.h"

#include <gtest/gtest.h>

#include <random>

#include "post/stress_path.h"

namespace felloe {
namespace {

// Circumscribed circle of an equilateral triangle: side / sqrt 3, not half the longest chord.
TEST(SmallestBall, TriangleIsCircumscribed) {
  const auto ball = smallest_ball<2>({{0, 0}, {1, 0}, {0.5, std::sqrt(0.75)}});
  EXPECT_NEAR(ball.radius(), 1 / std::sqrt(3.0), 1e-9);
}

TEST(SmallestBall, ObtuseTriangleAndStraightPathTakeHalfTheLongestChord) {
  EXPECT_NEAR(smallest_ball<2>({{0, 0}, {10, 0}, {4, 1}}).radius(), 5, 1e-9);
  EXPECT_NEAR(smallest_ball<2>({{0, 0}, {1, 1}, {3, 3}, {2, 2}}).radius(), std::sqrt(4.5), 1e-9);
}

TEST(SmallestBall, PointsOnACircleGiveTheCircle) {
  std::vector<Point<2>> points;
  for (int i = 0; i < 72; ++i)
    points.push_back({3 + 2 * std::cos(i * pi / 36), -1 + 2 * std::sin(i * pi / 36)});
  const auto ball = smallest_ball<2>(points);
  EXPECT_NEAR(ball.radius(), 2, 1e-9);
  EXPECT_NEAR(ball.centre[0], 3, 1e-6);
  EXPECT_NEAR(ball.centre[1], -1, 1e-6);
}

// Shear paths of one harmonic are ellipses: half the longest chord is right for them (and for
// straight paths), as in Papadopoulos et al., Int. J. Fatigue 19 (1997), from memory.
TEST(SmallestBall, EllipseTakesItsMajorHalfAxis) {
  for (const double minor : {0.0, 0.3, 1.0, 1.9}) {
    std::vector<Point<2>> points;
    for (int i = 0; i < 72; ++i) {
      const double x = 2 * std::cos(i * pi / 36), y = minor * std::sin(i * pi / 36);
      points.push_back({1 + 0.8 * x - 0.6 * y, 4 + 0.6 * x + 0.8 * y});
    }
    EXPECT_NEAR(smallest_ball<2>(points).radius(), 2, 1e-9) << minor;
  }
}

TEST(SmallestBall, RepeatedPointHasNoSize) {
  EXPECT_EQ(smallest_ball<5>({{1, 2, 3, 4, 5}, {1, 2, 3, 4, 5}}).radius(), 0);
}

// The five-dimensional simplex with unit edges: circumradius sqrt(d / (2 (d + 1))) = sqrt(5 / 12).
TEST(SmallestBall, FiveDimensionalSimplexIsCircumscribed) {
  std::vector<Point<5>> corners(6, Point<5>{});
  const double a = std::sqrt(0.5), b = (1 + std::sqrt(6.0)) / 5 * a;
  for (int i = 0; i < 5; ++i) corners[i][i] = a;
  for (int i = 0; i < 5; ++i) corners[5][i] = b;
  EXPECT_NEAR(smallest_ball<5>(corners).radius(), std::sqrt(5.0 / 12), 1e-9);
}

// A smallest ball holds all points, and its centre is a mean of points on its surface: moving the
// centre in any direction moves it away from one of them.
TEST(SmallestBall, HoldsAllPointsAndCannotShrink) {
  std::mt19937 engine(7);
  std::normal_distribution<double> normal;
  for (int round = 0; round < 20; ++round) {
    std::vector<Point<5>> points(60);
    for (auto &p : points)
      for (double &c : p) c = normal(engine);
    const auto ball = smallest_ball<5>(points);
    const auto farthest = [&](const Point<5> &centre) {
      double d = 0;
      for (const auto &p : points) d = std::max(d, squared_distance<5>(p, centre));
      return d;
    };
    EXPECT_LE(farthest(ball.centre), ball.squared_radius * (1 + 1e-9));
    for (int trial = 0; trial < 200; ++trial) {
      Point<5> centre = ball.centre;
      for (double &c : centre) c += 1e-3 * normal(engine);
      EXPECT_GT(farthest(centre), ball.squared_radius * (1 - 1e-9));
    }
  }
}

// Squared length of the coordinates is J2 = von Mises^2 / 3.
TEST(DeviatorCoordinates, SquaredLengthIsJ2) {
  const Stress s{{120, -40, 15, 33, -21, 8}};
  EXPECT_NEAR(squared_distance<5>(deviator_coordinates(s), {}), von_mises(s) * von_mises(s) / 3,
              1e-9);
}

}  // namespace
}  // namespace felloe
