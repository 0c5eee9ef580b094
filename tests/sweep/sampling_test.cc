// SPDX-License-Identifier: GPL-3.0-or-later
// Samples are what they are called: one point a stratum, the published sequence.
#include "cli/sweep/sampling.h"

#include <gtest/gtest.h>

#include <set>

namespace felloe {
namespace {

TEST(LatinHypercube, HasExactlyOnePointInEachStratumOfEachCoordinate) {
  for (const int n : {1, 7, 200}) {
    const auto points = latin_hypercube(n, 5, 42);
    ASSERT_EQ(points.size(), std::size_t(n));
    for (int d = 0; d < 5; ++d) {
      std::set<int> strata;
      for (const CubePoint &p : points) {
        EXPECT_GE(p[d], 0);
        EXPECT_LT(p[d], 1);
        strata.insert(int(p[d] * n));
      }
      EXPECT_EQ(strata.size(), std::size_t(n)) << "coordinate " << d;
    }
  }
}

TEST(LatinHypercube, SeedDecides) {
  EXPECT_EQ(latin_hypercube(20, 3, 1), latin_hypercube(20, 3, 1));
  EXPECT_NE(latin_hypercube(20, 3, 1), latin_hypercube(20, 3, 2));
}

// Bratley and Fox, Algorithm 659, ACM TOMS 14 (1988); the points of Joe and Kuo's own program
// (sobol.cc with new-joe-kuo-6, 2008) after the origin, from memory.
TEST(Sobol, BeginsWithThePublishedPoints) {
  const std::vector<CubePoint> published = {{0.5, 0.5, 0.5},       {0.75, 0.25, 0.25},
                                            {0.25, 0.75, 0.75},    {0.375, 0.375, 0.625},
                                            {0.875, 0.875, 0.125}, {0.625, 0.125, 0.875},
                                            {0.125, 0.625, 0.375}, {0.1875, 0.3125, 0.9375}};
  EXPECT_EQ(sobol_points(8, 3), published);
}

TEST(Sobol, LongerSetBeginsWithTheShorterOne) {
  const auto some = sobol_points(100, 6);
  auto more = sobol_points(300, 6);
  more.resize(100);
  EXPECT_EQ(more, some);
}

// With the origin, 2^k points are a net: every dyadic stratum of a coordinate holds one.
TEST(Sobol, FillsDyadicStrataEvenly) {
  auto points = sobol_points(255, 10);
  points.push_back(CubePoint(10, 0.0));
  for (int d = 0; d < 10; ++d) {
    std::set<int> strata;
    for (const CubePoint &p : points) strata.insert(int(p[d] * 256));
    EXPECT_EQ(strata.size(), 256u) << "coordinate " << d;
  }
}

}  // namespace
}  // namespace felloe
