// SPDX-License-Identifier: GPL-3.0-or-later
// Collects the nodes round a node.
#include "post/notch_gradient.h"

#include <algorithm>
#include <set>

#include "post/notch_support.h"

namespace felloe {

std::vector<int> nodes_round(const Mesh &mesh, int node) {
  std::set<int> round;
  for (const auto &cell : mesh.cells)
    if (std::find(cell.begin(), cell.end(), node) != cell.end())
      for (const int n : cell)
        if (mesh.node_parts.empty() || mesh.node_parts[n] == mesh.node_parts[node]) round.insert(n);
  round.erase(node);
  return {round.begin(), round.end()};
}

double related_gradient_at(const Mesh &mesh, int node, double value, const std::vector<int> &round,
                           const std::vector<double> &values) {
  std::vector<Vec3> points;
  for (const int n : round) points.push_back(mesh.nodes[n]);
  return related_gradient(mesh.nodes[node], value, points, values);
}

}  // namespace felloe
