// SPDX-License-Identifier: GPL-3.0-or-later
// Sizes for a density, and the number of divisions that suits the hole counts.
#include <algorithm>
#include <cmath>
#include <numeric>
#include <string>

#include "mesher/bands.h"
#include "mesher/error.h"

namespace felloe {
namespace {

/// What the divisions cost in one row: nothing when half a pitch can be meshed and mirrored, a
/// little for whole pitches, more the more pitches must be meshed at once.
double row_cost(int n, const std::vector<Hole> &holes, int symmetry) {
  if (holes.empty()) return 0;
  const int count = static_cast<int>(holes.size());
  if (n < 4 * count) return 1e9;
  const double place = holes.front().theta * n / (2 * pi);
  // holes beside the grid: the structured bands next to them are sheared
  const double sheared = std::abs(place - std::round(place)) < 1e-9 ? 0 : 0.1;
  if (n % (4 * count) == 0) return sheared;
  if (n % (2 * count) == 0) return sheared + 0.05;  // a strip of one column joins the fill
  for (int copies = count; copies >= symmetry; --copies)
    if (count % copies == 0 && copies % symmetry == 0 && n % (2 * copies) == 0)
      return 0.3 + 0.25 * std::log2(count / copies);
  return 1e9;
}

}  // namespace

MeshSize mesh_size(double density) {
  if (!(density >= 0.25 && density <= 4))
    throw Error("mesh density " + std::to_string(density) +
                ": it must lie between 0.25 and 4; 1 is the default");
  MeshSize size;
  // two quadratic layers carry bending and shear of the sheet almost exactly; more of them cost
  // much and change little, so they grow with the square root only
  size.disc_layers = 2 * std::max(1, static_cast<int>(std::lround(std::sqrt(density) - 0.25)));
  size.rim_layers = size.disc_layers / 2;
  for (; density >= 0.8; density /= 2) ++size.halvings;
  size.edge /= density;
  size.weld_edge /= density;
  size.ring_first /= density;
  // the rings keep their width: (1.25^n - 1) first / 0.25 with the first cell scaled
  const double growth = 1.25, layers = MeshSize{}.ring_layers;
  size.ring_layers =
      std::max(2, static_cast<int>(std::lround(
                      std::log(1 + density * (std::pow(growth, layers) - 1)) / std::log(growth))));
  size.ring_edges =
      std::max(8, 4 * static_cast<int>(std::lround(MeshSize{}.ring_edges * density / 4)));
  return size;
}

int circle_divisions(const WheelLayout &l, const MeshSize &size) {
  const double end = l.disc.length();
  // without vents: four fifths of the disc's radius, where vents would lie
  const double radius = l.vents.empty() ? 0.8 * l.disc.section_point(end, 0)[0]
                                        : l.disc.section_point(l.vents.front().s, 0)[0];
  const double target = std::max(24.0, 2 * pi * radius / (1.3 * size.edge));
  int symmetry = static_cast<int>(std::gcd(l.bolts.size(), l.vents.size()));
  if (symmetry == 0) symmetry = 4;
  const int step = 2 * symmetry;
  const int fewest = 4 * static_cast<int>(std::max(l.bolts.size(), l.vents.size()));
  int best = 0;
  double least = 1e300;
  for (int n = step; n <= std::max(3 * target, 1.0 * fewest + step); n += step) {
    const double ratio = n / target;
    const double cost = std::abs(std::log(ratio)) * (ratio < 1 ? 1.5 : 1) +
                        row_cost(n, l.bolts, symmetry) + row_cost(n, l.vents, symmetry);
    if (cost < least - 1e-9) {
      least = cost;
      best = n;
    }
  }
  return best;
}

}  // namespace felloe
