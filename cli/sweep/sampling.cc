// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sweep/sampling.h"

#include <boost/random/mersenne_twister.hpp>
#include <boost/random/sobol.hpp>
#include <boost/random/uniform_01.hpp>
#include <boost/random/uniform_int_distribution.hpp>

#include <cmath>
#include <numeric>

namespace felloe {
namespace {

std::vector<CubePoint> origins(int n, int dimensions) {
  return std::vector<CubePoint>(static_cast<std::size_t>(n),
                                CubePoint(static_cast<std::size_t>(dimensions)));
}

}  // namespace

std::vector<CubePoint> latin_hypercube(int n, int dimensions, std::uint64_t seed) {
  boost::random::mt19937_64 generator(seed);
  boost::random::uniform_01<double> within;
  std::vector<CubePoint> points = origins(n, dimensions);
  std::vector<int> strata(static_cast<std::size_t>(n));
  for (std::size_t d = 0; d < std::size_t(dimensions); ++d) {
    std::iota(strata.begin(), strata.end(), 0);
    for (int i = n - 1; i > 0; --i) {
      boost::random::uniform_int_distribution<int> any(0, i);
      std::swap(strata[std::size_t(i)], strata[std::size_t(any(generator))]);
    }
    for (std::size_t i = 0; i < points.size(); ++i)
      points[i][d] = (strata[i] + within(generator)) / n;
  }
  return points;
}

std::vector<CubePoint> random_points(int n, int dimensions, std::uint64_t seed) {
  boost::random::mt19937_64 generator(seed);
  boost::random::uniform_01<double> any;
  std::vector<CubePoint> points = origins(n, dimensions);
  for (CubePoint &p : points)
    for (double &x : p) x = any(generator);
  return points;
}

std::vector<CubePoint> sobol_points(int n, int dimensions) {
  boost::random::sobol sequence(static_cast<std::size_t>(dimensions));
  const double scale = std::ldexp(1.0, -64);
  std::vector<CubePoint> points = origins(n, dimensions);
  for (CubePoint &p : points)
    for (double &x : p) x = std::min(double(sequence()) * scale, 1 - 0x1p-53);
  return points;
}

}  // namespace felloe
