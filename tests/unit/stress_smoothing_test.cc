// SPDX-License-Identifier: GPL-3.0-or-later
// Proves that the smoothing of nodal stresses removes what quadratic cells swing round the truth,
// keeps what is smooth, and leaves singular surroundings alone.
#include "post/stress_smoothing.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "mesher/wheel_mesh.h"
#include "tests/support/reference_wheel.h"

namespace felloe {
namespace {

class Smoothing : public testing::Test {
 protected:
  WheelLayout w = layout(reference_wheel_without_holes());
  Mesh m = wheel_mesh(w, mesh_size(0.5));
  StressSmoothing smoothing{w, m};

  /// Nodes of the rim's tyre side well inside it, and whether each is a corner along the meridian.
  template <class F>
  void for_tyre_side(double from, double to, F &&f) const {
    for (std::size_t c = 0; c < m.cells.size(); ++c) {
      if (m.parts[c] != Part::rim) continue;
      for (int n = 18; n < 27; ++n) {
        const int node = m.cells[c][n];
        const SheetPoint &p = m.node_points[node];
        if (p.eta > 0.999 && p.s > from && p.s < to) f(node, n % 3 != 1, (n - 18) / 3 != 1);
      }
    }
  }
};

TEST_F(Smoothing, KeepsUniformStress) {
  std::vector<Stress> s(m.nodes.size());
  for (Stress &x : s) x = {{1, 2, 3, 4, 5, 6}};
  smoothing.apply(s);
  for (const Stress &x : s)
    for (int i = 0; i < 6; ++i) EXPECT_NEAR(x[i], i + 1, 1e-12);
}

// +1 at all corners, -1 at all middles along the meridian: the shape of a cell's own error. What is
// left is far below it.
TEST_F(Smoothing, RemovesTheSwingBetweenCornersAndMiddles) {
  std::vector<Stress> s(m.nodes.size());
  const double from = w.rim_weld_toe_s + 20, to = w.rim.length() - 15;
  for_tyre_side(0, w.rim.length(),
                [&](int node, bool corner, bool) { s[node][0] = corner ? 1 : -1; });
  smoothing.apply(s);
  double largest = 0;
  for_tyre_side(from, to,
                [&](int node, bool, bool) { largest = std::max(largest, std::abs(s[node][0])); });
  EXPECT_LT(largest, 1e-12);
}

// A wave cos(2 theta) has 20 cells: the filter's error is (pi / 20)^4 / 16 or so, below 1e-3.
TEST_F(Smoothing, KeepsSmoothStress) {
  std::vector<Stress> s(m.nodes.size());
  const auto wave = [&](int n) { return std::cos(2 * std::atan2(m.nodes[n][1], m.nodes[n][0])); };
  for (std::size_t n = 0; n < s.size(); ++n) s[n][2] = wave(static_cast<int>(n));
  smoothing.apply(s);
  double largest = 0;
  for (std::size_t n = 0; n < s.size(); ++n)
    largest = std::max(largest, std::abs(s[n][2] - wave(static_cast<int>(n))));
  EXPECT_LT(largest, 1e-3);
  EXPECT_GT(largest, 0);
}

TEST_F(Smoothing, LeavesWeldToesAndHubBorderAsTheyAre) {
  std::vector<Stress> s(m.nodes.size());
  for (std::size_t n = 0; n < s.size(); ++n) s[n][1] = static_cast<double>(n * 7919 % 1000);
  const std::vector<Stress> before = s;
  smoothing.apply(s);
  const double t = w.rim.thickness().at(w.rim_weld_toe_s), disc_t = w.disc.thickness().at(1e9);
  int kept = 0;
  for (std::size_t n = 0; n < s.size(); ++n) {
    const SheetPoint &p = m.node_points[n];
    const bool rim_toe = m.node_parts[n] == Part::rim && p.eta < -0.999 &&
                         p.s > w.rim_weld_toe_s - 1e-9 && p.s < w.rim_weld_toe_s + t + 1e-9;
    const bool disc_toe = m.node_parts[n] == Part::disc && p.s > w.disc.length() - disc_t - 1e-9;
    const bool hub = m.node_parts[n] == Part::disc && p.eta < -0.1 && p.s < w.hub_face_s;
    if (!rim_toe && !disc_toe && !hub) continue;
    ++kept;
    ASSERT_EQ(s[n][1], before[n][1]) << n;
  }
  EXPECT_GT(kept, 1000);
}

}  // namespace
}  // namespace felloe
