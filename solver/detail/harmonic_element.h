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

/// The points x points Gauss points of a cell. Error naming the cell when it is turned over or
/// reaches to a negative radius.
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

/// Strain amplitudes in the order rr, tt, zz, rt, tz, zr of the 27 unit amplitudes:
/// err = U,r; ett = (U + n V)/r; ezz = W,z; grt = V,r - V/r - n U/r; gtz = V,z - n W/r;
/// gzr = U,z + W,r.
using StrainMatrix = std::array<std::array<double, n_local>, 6>;
StrainMatrix strain_matrix(const SectionPoint &, int n);

/// Stress amplitudes from strain amplitudes, isotropic.
std::array<double, 6> stress_of(const std::array<double, 6> &strain, const Material &);

/// Stiffness of one cell, row-major 27 x 27 [N/mm]; 3 x 3 Gauss points.
using CellMatrix = std::array<double, n_local * n_local>;
CellMatrix cell_stiffness(const SectionMesh &, int cell, const Material &, int n);

/// Forces of all tractions, body and ring forces of the load, unknown = 3 node + component [N].
std::vector<double> nodal_forces(const SectionMesh &, const HarmonicLoad &);

}  // namespace felloe::detail
