// SPDX-License-Identifier: GPL-3.0-or-later
// A plain rim section with the surface names of a wheel, for tests of the load builders.
#pragma once
#include "tests/support/section_block.h"

namespace felloe::test {

/// Flange top radius 207.6 and seat heel radius 190.1 mm as on a 15 x 6 J rim, 3 mm thick, straight
/// pieces only. asymmetric: the inboard seat's heel lies 1.5 mm lower.
inline SectionMesh rim_block(bool asymmetric = false) {
  constexpr int n_pieces = 7, n_each = 3;
  const double heel = 190.1, top = 207.6, toe = 188.4, well = 172.8;
  const double low = asymmetric ? 1.5 : 0;
  const Vec2 outside[n_pieces + 1] = {{top, 76},   {heel, 76}, {toe, 56},         {well, 44},
                                      {well, -44}, {toe, -56}, {heel - low, -76}, {top, -76}};
  const Vec2 inwards[n_pieces + 1] = {{0, 3},   {-3, 3},  {-3, 1},  {-3, 1},
                                      {-3, -1}, {-3, -1}, {-3, -3}, {0, -3}};
  const char *names[n_pieces] = {"flange outboard",   "bead seat outboard", "", "well", "",
                                 "bead seat inboard", "flange inboard"};
  SectionMesh mesh = section_block(
      n_pieces * n_each, 1,
      [&](double a, double b) {
        const double along = a * n_pieces;
        const int k = std::min(int(along + 1e-9), n_pieces - 1);
        const double f = along - k;
        Vec2 x;
        for (int d = 0; d < 2; ++d)
          x[d] = (1 - f) * (outside[k][d] + (1 - b) * inwards[k][d]) +
                 f * (outside[k + 1][d] + (1 - b) * inwards[k + 1][d]);
        return x;
      },
      Part::rim);
  const std::vector<CellFace> tyre_side = mesh.edges.at("top");
  mesh.edges["rim tyre side"] = tyre_side;
  for (std::size_t i = 0; i < tyre_side.size(); ++i) {
    const std::string name = names[i / n_each];
    if (!name.empty()) mesh.edges[name].push_back(tyre_side[i]);
  }
  return mesh;
}

}  // namespace felloe::test
