// SPDX-License-Identifier: GPL-3.0-or-later
// Structured meshes of mapped blocks for tests.
#pragma once
#include <array>
#include <functional>
#include <string>
#include <vector>

#include "mesher/mesh.h"

namespace felloe::test {

/// A unit cube of n[0] x n[1] x n[2] cells under a map; side names by CellFace order a-, a+, b-,
/// b+, c-, c+ ("" : not named).
struct Block {
  std::array<int, 3> n{1, 1, 1};
  std::function<Vec3(const Vec3 &unit)> map;
  std::array<std::string, 6> sides{"a-", "a+", "b-", "b+", "c-", "c+"};
  Part part = Part::disc;
};

/// All blocks in one mesh. Nodes closer than 1e-9 of the size of the mesh are shared when their
/// blocks have the same part, so closed rings and neighbouring blocks join.
Mesh block_mesh(const std::vector<Block> &);
inline Mesh block_mesh(const Block &block) { return block_mesh(std::vector<Block>{block}); }

/// The nodes of the mesh at which the condition holds.
std::vector<int> nodes_where(const Mesh &, const std::function<bool(const Vec3 &)> &);

/// The node at the point; fails an assertion when there is none within 1e-6 of the mesh's size.
int node_at(const Mesh &, const Vec3 &);

/// Turns the local coordinates of each cell by one of the 24 rotations of the cube, in a fixed
/// sequence; the surfaces follow.
void turn_cells(Mesh &);

/// Full or partial ring: a = radius, b = angle, c = z.
Block ring(double r_in, double r_out, double z_low, double z_high, std::array<int, 3> n,
           double angle = 2 * pi);

}  // namespace felloe::test
