// SPDX-License-Identifier: GPL-3.0-or-later
// What moving the nodes of a mesh does: loads that stand for it, and stresses at a few nodes.
#pragma once
#include <map>
#include <utility>
#include <vector>

#include "solver/elastic_model.h"

namespace felloe {

/// The same mesh with its nodes moved both ways.
struct ShapeChange {
  const Mesh *up = nullptr, *down = nullptr;
  double step = 0;  ///< of the variable, each way
};

/// Forces on the nodes of both meshes, [load][node]; empty: they are equal.
struct ForceChange {
  std::vector<std::vector<Vec3>> up, down;
};

/// Loads under which the body moves as it does when the variable grows by 1, one for each solution:
/// d/dp of C^T (f - K u) with the unknowns fixed. Supports as those of the solutions.
std::vector<LoadCase> loads_of_change(const ShapeChange &, const ForceChange &, const Supports &,
                                      const std::map<Part, Material> &,
                                      const std::vector<Solution> &);

/// Stress at some nodes, as the solver averages it, from displacements of the nodes around them.
class StressAtNodes {
 public:
  StressAtNodes(const Mesh &, std::vector<int> nodes);
  const std::vector<int> &nodes() const { return nodes_; }
  /// The nodes whose displacements count.
  const std::vector<int> &around() const { return around_; }
  /// displacements[load][k] belongs to around()[k]. Returns [load][k], belonging to nodes()[k].
  std::vector<std::vector<Stress>> stresses(
      const Mesh &moved, const std::map<Part, Material> &,
      const std::vector<std::vector<Vec3>> &displacements) const;

 private:
  struct Corner {
    int of, cell, local;  ///< place in nodes_, cell, its node
  };
  std::vector<int> nodes_, around_, place_;
  std::vector<Corner> corners_;
  std::vector<int> n_cells_;
};

}  // namespace felloe
