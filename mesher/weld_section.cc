// SPDX-License-Identifier: GPL-3.0-or-later
// Three blocks of quads in a triangle, numbered so that their common sides coincide.
#include "mesher/weld_section.h"

#include <cassert>
#include <map>
#include <tuple>

namespace felloe {
namespace {

// Corners: A root, B toe on the disc, C toe on the rim. Three blocks, one at each corner, meet in
// the triangle's centre along three spokes from the middles of the sides.
enum class Side { ab, ac, bc, spoke_ab, spoke_ac, spoke_bc, centre, inside };

using Key = std::tuple<Side, int, int, int>;  // side, index along it, inner block and row

/// One name for every node, whichever block asks. n: half cells along half a side.
Key canonical(Side side, int index, int n) {
  if (side == Side::ac && index == 0) return {Side::ab, 2 * n, 0, 0};
  if (side == Side::bc && index == 0) return {Side::ab, 0, 0, 0};
  if (side == Side::bc && index == 2 * n) return {Side::ac, 2 * n, 0, 0};
  const bool spoke = side == Side::spoke_ab || side == Side::spoke_ac || side == Side::spoke_bc;
  if (spoke && index == n) return {Side::centre, 0, 0, 0};
  if (spoke && index == 0)
    return {side == Side::spoke_ab   ? Side::ab
            : side == Side::spoke_ac ? Side::ac
                                     : Side::bc,
            n, 0, 0};
  return {side, index, 0, 0};
}

/// Key of lattice point (i, j), 0 ... n, of a block. Block 0 at A: i towards B, j towards C; block
/// 1 at B: i towards C, j towards A; block 2 at C: i towards A, j towards B. Sides run B -> A, A ->
/// C and B -> C.
Key key_of(int block, int i, int j, int n) {
  if (block == 0) {
    if (j == 0) return canonical(Side::ab, 2 * n - i, n);
    if (i == 0) return canonical(Side::ac, j, n);
    if (i == n) return canonical(Side::spoke_ab, j, n);
    if (j == n) return canonical(Side::spoke_ac, i, n);
  } else if (block == 1) {
    if (i == 0) return canonical(Side::ab, j, n);
    if (j == 0) return canonical(Side::bc, i, n);
    if (j == n) return canonical(Side::spoke_ab, i, n);
    if (i == n) return canonical(Side::spoke_bc, j, n);
  } else {
    if (j == 0) return canonical(Side::ac, 2 * n - i, n);
    if (i == 0) return canonical(Side::bc, 2 * n - j, n);
    if (i == n) return canonical(Side::spoke_ac, j, n);
    if (j == n) return canonical(Side::spoke_bc, i, n);
  }
  return {Side::inside, i, j, block};
}

Vec2 middle(const Vec2 &a, const Vec2 &b) { return {0.5 * (a[0] + b[0]), 0.5 * (a[1] + b[1])}; }

}  // namespace

WeldSection weld_section(const WheelLayout &w, int layers) {
  assert(layers % 2 == 0);
  const int n = layers;  // half cells along half a side
  const Vec2 a = w.disc.section_point(w.disc.length(), 1),
             b = w.disc.section_point(w.disc.length(), -1),
             c = w.rim.section_point(w.rim_weld_toe_s, -1);
  const Vec2 ab = middle(a, b), ac = middle(a, c), bc = middle(b, c);
  const Vec2 centre = {(a[0] + b[0] + c[0]) / 3, (a[1] + b[1] + c[1]) / 3};
  const Vec2 quad[3][4] = {{a, ab, ac, centre}, {b, bc, ab, centre}, {c, ac, bc, centre}};

  WeldSection out;
  std::map<Key, int> known;
  const auto node = [&](int block, int i, int j) {
    const Key key = key_of(block, i, j, n);
    const auto [at, is_new] = known.emplace(key, static_cast<int>(out.nodes.size()));
    if (is_new) {
      WeldNode x;
      const double u = static_cast<double>(i) / n, v = static_cast<double>(j) / n;
      for (int d = 0; d < 2; ++d)
        x.rz[d] = (1 - v) * ((1 - u) * quad[block][0][d] + u * quad[block][1][d]) +
                  v * ((1 - u) * quad[block][2][d] + u * quad[block][3][d]);
      if (std::get<0>(key) == Side::ab) x.layer = std::get<1>(key);
      if (std::get<0>(key) == Side::ac) x.station = std::get<1>(key);
      if (x.layer == 2 * n) x.station = 0;
      out.nodes.push_back(x);
    }
    return at->second;
  };
  for (int block = 0; block < 3; ++block)
    for (int j = 0; j < n; j += 2)
      for (int i = 0; i < n; i += 2) {
        const int cell = static_cast<int>(out.cells.size());
        if (block == 1 && j == 0) out.face.push_back({cell, 2});
        if (block == 2 && i == 0) out.face.push_back({cell, 0});
        out.cells.emplace_back();
        for (int q = 0; q < 9; ++q) out.cells.back()[q] = node(block, i + q % 3, j + q / 3);
      }
  out.root = known.at({Side::ab, 2 * n, 0, 0});
  out.toe_disc = known.at({Side::ab, 0, 0, 0});
  out.toe_rim = known.at({Side::ac, 2 * n, 0, 0});
  return out;
}

}  // namespace felloe
