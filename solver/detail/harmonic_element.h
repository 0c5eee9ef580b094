// SPDX-License-Identifier: GPL-3.0-or-later
// The 9-node ring element of one Fourier harmonic: points, strains, stiffness and loads.
#pragma once
#include <array>
#include <vector>

#include "mesher/mesh.h"
#include "solver/harmonic_model.h"
#include "solver/material.h"

namespace felloe::detail {

/// Local unknown 3 i + component of the element; amplitudes (U, V, W) of its 9 nodes.
constexpr int n_local = 27;

/// Factor of the integral over theta: 2 pi for n = 0, pi for the products cos cos and sin sin.
inline double theta_factor(int n) { return n == 0 ? 2 * pi : pi; }

/// A quadrature point of one cell.
struct SectionPoint {
  Vec2 rz{};                                  ///< [mm]
  std::array<double, 9> value{}, dr{}, dz{};  ///< shape functions and their derivatives [1/mm]
  double weight = 0;                          ///< det J times the Gauss weight [mm2]
};

/// The points x points Gauss points of a cell; 0: its nine nodes, weight 0. Error naming the cell
/// when it is turned over or a point reaches the axis.
std::vector<SectionPoint> section_points(const SectionMesh &, int cell, int points);

/// A quadrature point of one edge; shape functions of the edge's 3 nodes.
struct EdgePoint {
  Vec2 rz{}, normal{};  ///< outward unit normal
  std::array<int, 3> nodes{};
  std::array<double, 3> value{};
  double weight = 0;  ///< length times the Gauss weight [mm]
};

/// Four Gauss points an edge, as many as the 3D loads use on a face.
std::vector<EdgePoint> edge_points(const SectionMesh &, const CellFace &);

/// Stiffness of one cell without the integral over theta, for every harmonic at once:
/// K_n = K_0 + n K_1 + n^2 K_2, of the entries of each pair of nodes only those that can differ
/// from zero. Rows and columns u, v, w of the two nodes; 3 x 3 Gauss points.
///
/// Strain amplitudes: err = U,r; ett = (U + n V)/r; ezz = W,z; grt = V,r - V/r - n U/r;
/// gtz = V,z - n W/r; gzr = U,z + W,r.
struct HarmonicCell {
  struct Pair {
    double uu = 0, uw = 0, wu = 0, ww = 0, vv = 0;  ///< K_0
    double uv = 0, vu = 0, vw = 0, wv = 0;          ///< K_1
    double shear = 0;                               ///< K_2: uu and ww
    double hoop = 0;                                ///< K_2: vv
  };
  std::array<Pair, 81> pairs;  ///< row node x 9 + column node
};
HarmonicCell harmonic_cell(const SectionMesh &, int cell, const Material &);

/// Stiffness of one cell and harmonic, row-major 27 x 27 [N/mm].
using CellMatrix = std::array<double, n_local * n_local>;
CellMatrix cell_matrix(const HarmonicCell &, int n);

/// Forces of all tractions, body and ring forces of the load, unknown = 3 node + component [N].
std::vector<double> nodal_forces(const SectionMesh &, const HarmonicLoad &);

}  // namespace felloe::detail
