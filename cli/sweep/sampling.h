// SPDX-License-Identifier: GPL-3.0-or-later
// Points that fill the unit cube evenly.
#pragma once
#include <cstdint>
#include <vector>

namespace felloe {

using CubePoint = std::vector<double>;  ///< each coordinate from 0 to below 1

/// n points: along every coordinate exactly one lies in each of n equal strata (McKay, Beckman,
/// Conover 1979). The same seed gives the same points. Generator: Boost.Random mt19937_64.
std::vector<CubePoint> latin_hypercube(int n, int dimensions, std::uint64_t seed);

/// n points drawn independently and evenly. The same seed gives the same points. Generator:
/// Boost's.
std::vector<CubePoint> random_points(int n, int dimensions, std::uint64_t seed);

/// The first n points of the Sobol sequence after the origin, with the direction numbers of Joe and
/// Kuo (2008), as Boost.Random has them. Longer sets begin with the shorter ones.
std::vector<CubePoint> sobol_points(int n, int dimensions);

}  // namespace felloe
