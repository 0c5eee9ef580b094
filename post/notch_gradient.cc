// SPDX-License-Identifier: GPL-3.0-or-later
// Collects the nodes round a node.
#include "post/notch_gradient.h"

#include <algorithm>
#include <set>

#include "post/notch_support.h"

namespace felloe {

double related_gradient_at(const Mesh &mesh, const std::vector<double> &values, int node) {
  std::set<int> around;
  for (const auto &cell : mesh.cells)
    if (std::find(cell.begin(), cell.end(), node) != cell.end())
      around.insert(cell.begin(), cell.end());
  around.erase(node);
  std::vector<Vec3> points;
  std::vector<double> near;
  for (const int n : around) {
    if (!mesh.node_parts.empty() && mesh.node_parts[n] != mesh.node_parts[node]) continue;
    points.push_back(mesh.nodes[n]);
    near.push_back(values[n]);
  }
  return related_gradient(mesh.nodes[node], values[node], points, near);
}

}  // namespace felloe
