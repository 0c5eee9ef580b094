// SPDX-License-Identifier: GPL-3.0-or-later
// What the cell kernels need to know of a cell's shape.
#pragma once
#include <array>
#include <cmath>

#include "mesher/vec3.h"

namespace felloe::detail {

/// Calls put(9 q + 3 d + j, value) with the metric of CellBatches; points q and nodes counted as
/// there. Returns the volume [mm3], or the most negative Jacobian determinant of a folded cell.
template <class Put>
double cell_metric(const std::array<Vec3, 27> &nodes, Put &&put) {
  // Gauss points -s, 0, s of [-1, 1] and the parabolas through -1, 0, 1.
  constexpr double s = 0.7745966692414834, h = s / 2;
  constexpr double value[3][3] = {{0.3 + h, 0.4, 0.3 - h}, {0, 1, 0}, {0.3 - h, 0.4, 0.3 + h}};
  constexpr double slope[3][3] = {
      {-s - 0.5, 2 * s, 0.5 - s}, {-0.5, 0, 0.5}, {s - 0.5, -2 * s, s + 0.5}};
  constexpr double weight[3] = {5.0 / 9, 8.0 / 9, 5.0 / 9};
  double volume = 0, worst = 0;
  for (int qj = 0, q = 0; qj < 3; ++qj)
    for (int qi = 0; qi < 3; ++qi)
      for (int qk = 0; qk < 3; ++qk, ++q) {
        double d[3][3] = {};  // d[e][j] = d x_j / d xi_e
        for (int k = 0; k < 3; ++k)
          for (int j = 0; j < 3; ++j)
            for (int i = 0; i < 3; ++i) {
              const double g[3] = {slope[qi][i] * value[qj][j] * value[qk][k],
                                   value[qi][i] * slope[qj][j] * value[qk][k],
                                   value[qi][i] * value[qj][j] * slope[qk][k]};
              const Vec3 &x = nodes[i + 3 * j + 9 * k];
              for (int e = 0; e < 3; ++e)
                for (int c = 0; c < 3; ++c) d[e][c] += g[e] * x[c];
            }
        // Rows of the inverse of (d x / d xi): cross products of the other two tangents over det.
        const auto product = [&](int e, int c) {
          const int e1 = (e + 1) % 3, e2 = (e + 2) % 3, c1 = (c + 1) % 3, c2 = (c + 2) % 3;
          return d[e1][c1] * d[e2][c2] - d[e1][c2] * d[e2][c1];
        };
        const double det =
            d[0][0] * product(0, 0) + d[0][1] * product(0, 1) + d[0][2] * product(0, 2);
        const double dv = det * weight[qi] * weight[qj] * weight[qk];
        volume += dv;
        if (!(det > 0)) {
          worst = det < worst ? det : worst;
          continue;
        }
        const double factor = std::sqrt(dv) / (det * 2 * s);
        for (int e = 0; e < 3; ++e)
          for (int c = 0; c < 3; ++c) put(9 * q + 3 * e + c, product(e, c) * factor);
      }
  return worst < 0 ? worst : volume;
}

}  // namespace felloe::detail
