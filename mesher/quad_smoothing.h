// SPDX-License-Identifier: GPL-3.0-or-later
// Improves the shape of planar quads: removes bad vertices, then moves the free nodes.
#pragma once
#include <array>
#include <vector>

#include "mesher/vec3.h"

namespace felloe {

enum class Freedom { fixed, along_x, free };

/// A corner's place is its node's, moved by turn periods along y.
struct QuadCorner {
  int node = 0, turn = 0;
  bool operator==(const QuadCorner &o) const { return node == o.node && turn == o.turn; }
};

struct PatchNode {
  Vec2 at{};
  Freedom freedom = Freedom::free;
  int ideal_valence = 4;  ///< quads that should meet here
  int origin = -1;        ///< the caller's number, kept when nodes are removed
};

/// A patch of quads that may repeat along y with a period.
struct QuadPatch {
  std::vector<PatchNode> nodes;
  std::vector<std::array<QuadCorner, 4>> quads;  ///< counterclockwise
  double period = 0;
  Vec2 corner(const QuadCorner &c) const {
    return {nodes[c.node].at[0], nodes[c.node].at[1] + c.turn * period};
  }
};

/// Merges the two quads round a free node of valence 2, and collapses quads and turns inner edges
/// where the valences come closer to the ideal. Fixed nodes stay.
void improve_valences(QuadPatch &);

/// Moves the free nodes, one after the other, to the least sum of
/// ((|a|^2 + |b|^2) / (2 J))^2 over the corners of the quads with edges a, b and area J = a x b;
/// J is kept positive by a small constant, so that folded quads unfold.
void smooth(QuadPatch &, int sweeps);

/// The smallest scaled Jacobian J / (|a| |b|) of all corners; 1 for rectangles.
double smallest_scaled_jacobian(const QuadPatch &);

/// Scaled Jacobian of the worst corner of one quad, corners counterclockwise.
double scaled_jacobian(const std::array<Vec2, 4> &corners);

}  // namespace felloe
