// SPDX-License-Identifier: GPL-3.0-or-later
// The orthogonal projection of nodal vectors onto the displacements that supports, adapter and ties
// allow.
#pragma once
#include <array>
#include <vector>

#include "solver/detail/cell_columns.h"
#include "solver/detail/constraint_map.h"
#include "solver/detail/node_exchange.h"

namespace felloe::detail {

/// One component of a node: the direction and the offset of the node's first number.
struct Direction {
  long at = 0;
  Vec3 axis{};
};

/// Range of C in the wheel frame, places as in CellColumns. With the orthogonal projection p onto
/// it, p K p is the reduced stiffness in an orthonormal basis: vectors keep the shape of the mesh.
/// Whatever depends on the adapter is a call of all processes together.
class Admissible {
 public:
  Admissible(const CellColumns &, const std::vector<Axes> &of_nodes, const ConstraintMap &,
             const NodeExchange & = {});

  /// u becomes p u in the owned components.
  template <class T>
  void project(T *u) const;
  /// Motions of the adapter in an admissible u.
  std::array<double, 6> motion(const double *u) const;
  /// Adds the nodal forces that do the adapter's work in every admissible u.
  void add_adapter_load(const std::array<double, 6> &load, double *f) const;

  /// Those of ghosts too.
  const std::vector<Direction> &held() const { return held_; }
  const std::vector<Direction> &on_adapter() const { return adapter_; }
  const std::vector<std::vector<Direction>> &ties() const { return ties_; }

 private:
  template <class T>
  std::array<double, 6> moments(const T *f) const;

  NodeExchange exchange_;
  bool has_adapter_ = false;
  std::vector<Direction> held_, adapter_;           ///< owned ones first
  std::size_t n_owned_ = 0;                         ///< of adapter_
  std::vector<std::array<double, 6>> rows_;         ///< of adapter_: translation, rotation
  std::vector<std::vector<Direction>> ties_;        ///< owned components that are equal
  std::array<std::array<double, 6>, 6> inverse_{};  ///< of the sum of rows^T rows
};

}  // namespace felloe::detail
