// SPDX-License-Identifier: GPL-3.0-or-later
// Supports, rigid adapter and press-fit ties as one linear map u = C q + g from the reduced
// unknowns q to the nodal components u.
#pragma once
#include <array>
#include <vector>

#include "solver/detail/block_matrix.h"
#include "solver/detail/nodal_frame.h"

namespace felloe::detail {

/// Rows of C: one master of weight 1, or six motions of the adapter, or nothing.
struct ConstraintMap {
  static constexpr int held = -1, on_adapter = -2;

  std::vector<int> unknown;  ///< of each nodal component: number of its master in q, or as above
  int n_masters = 0;         ///< nodal components among the reduced unknowns; they come first
  int n_motions = 0;         ///< 6 with a free adapter, else 0; the last reduced unknowns
  std::vector<int> group;    ///< of each reduced unknown: its node; for the ordering

  std::vector<long> adapter_components;             ///< nodal components on the free adapter
  std::vector<std::array<double, 6>> adapter_rows;  ///< their rows of C: translation, rotation
  std::vector<double> held_value;                   ///< part of g that every load shares
  bool any_held_value = false;
  std::vector<std::pair<long, double>> tie_shift;  ///< g of component = factor times interference

  int n_reduced() const { return n_masters + n_motions; }
};

/// Throws Error when a place does not exist, when supports contradict each other, when a held node
/// lies on the adapter, or when press-fit pairs meet the Cartesian frame.
/// @param joined  false for nodes without a cell: they are held
ConstraintMap constraint_map(const Mesh &, NodalFrame, const std::vector<Axes> &, const Supports &,
                             const std::vector<bool> &joined);

/// g for a radial interference [mm].
std::vector<double> offsets(const ConstraintMap &, double interference);
/// u = C q.
void expand(const ConstraintMap &, const double *q, std::vector<double> &u);
/// C^T f into `r`; component(i) tells f.
template <class Component>
void reduced(const ConstraintMap &map, const Component &component, std::vector<double> &r) {
  r.assign(map.n_reduced(), 0.0);
  for (std::size_t i = 0; i < map.unknown.size(); ++i)
    if (map.unknown[i] >= 0) r[map.unknown[i]] += component(i);
  for (std::size_t k = 0; k < map.adapter_components.size(); ++k) {
    const double f = component(map.adapter_components[k]);
    for (int m = 0; m < map.n_motions; ++m) r[map.n_masters + m] += map.adapter_rows[k][m] * f;
  }
}
/// C^T f.
std::vector<double> reduced(const ConstraintMap &, const std::vector<double> &f);
/// C^T K C.
SymmetricMatrix reduced(const ConstraintMap &, const BlockMatrix &);

}  // namespace felloe::detail
