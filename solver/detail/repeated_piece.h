// SPDX-License-Identifier: GPL-3.0-or-later
// One piece of a mesh with its stiffness, and where its equal copies lie in the whole.
#pragma once
#include <map>
#include <vector>

#include "solver/detail/body.h"

namespace felloe::detail {

/// Copies are turned about z; where the piece is mirrored, those of odd number are mirror images
/// besides: their hoop components point the other way. Cylindrical frame.
class RepeatedPiece {
 public:
  /// @param piece   cells `cells` of the whole mesh; must outlive this, as `copies` must
  /// @param copies  [copy][node of the piece]: node of the whole mesh
  /// @param weight  of each node of the piece: what of a force on it counts in each copy, so that
  ///                nodes that several copies share are not counted more than once
  RepeatedPiece(const BodyInput &, const Mesh &piece, const std::vector<int> &cells,
                const std::vector<std::vector<int>> &copies, bool is_mirrored,
                std::vector<double> weight);

  int n_copies() const { return static_cast<int>(copies_.size()); }
  const BlockMatrix &stiffness() const { return stiffness_; }
  ConstraintMap map(const Supports &) const;

  /// Nodal forces of the whole as the copies see and count them, reduced: [copy][reduced unknown].
  SparseVector reduced_forces(const ConstraintMap &, const SparseVector &whole) const;
  /// Nodal displacements of the whole from the reduced unknowns of each copy.
  void put_displacement(const ConstraintMap &, const std::vector<const double *> &of_copies,
                        std::vector<double> &whole) const;
  /// See Body.
  void multiply(const std::vector<const std::vector<double> *> &u,
                std::vector<std::vector<double>> &products) const;
  /// See node_diagonals(), of the whole.
  std::vector<double> node_stiffness() const;
  const std::map<Part, double> &part_volumes() const { return part_volumes_; }

 private:
  double sign(int copy, int component) const {
    return is_mirrored_ && copy % 2 == 1 && component == 1 ? -1 : 1;
  }

  /// A node of the whole as a node of one copy.
  struct Place {
    int copy, node;
  };
  void list_places();

  const Mesh &piece_;
  const std::vector<std::vector<int>> &copies_;
  bool is_mirrored_;
  std::size_t n_whole_nodes_;
  std::vector<int> places_begin_;  ///< of each node of the whole, in places_
  std::vector<Place> places_;
  std::vector<double> weight_;
  std::vector<Axes> axes_;
  BlockMatrix stiffness_;
  std::map<Part, double> part_volumes_;  ///< of the whole [mm3]
};

}  // namespace felloe::detail
