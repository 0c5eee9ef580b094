// SPDX-License-Identifier: GPL-3.0-or-later
// Natural frequencies and mode shapes of a body, free or held.
#pragma once
#include <map>
#include <vector>

#include "mesher/mesh.h"
#include "solver/elastic_model.h"
#include "solver/material.h"

namespace felloe {

struct Mode {
  double frequency = 0;     ///< [Hz]; exactly 0 for rigid motions
  std::vector<Vec3> shape;  ///< of each node, wheel frame; the largest displacement has size 1
  /// Mass that a shake of the supports along x, y, z sets in motion in this mode [kg]; the sum over
  /// all modes is what is not held.
  Vec3 effective_mass{};
  double residual = 0;  ///< relative, in the energy norm; bounds the error of frequency squared
};

/// The lowest `count` modes, ascending, multiple frequencies as often as they occur.
///
///   K phi = omega^2 M phi,  f = omega / (2 pi)
///
/// Quadratic hexahedra with consistent mass, supports, adapter and press-fit ties as in
/// ElasticModel; prescribed displacements count as zero, a free adapter has no mass of its own.
/// A body that can move freely begins with its rigid motions, six for one that is not held at all.
/// Density [kg/mm3] of every part that occurs. Shift-invert Lanczos on the Cholesky factor of the
/// whole matrix; every pair is checked to a residual of 1e-6
/// (rigid motions, where only rounding is left, to 1e-3).
/// Throws Error when a material or the supports are not usable or a check fails.
std::vector<Mode> natural_modes(const Mesh &, const std::map<Part, Material> &, const Supports &,
                                int count, NodalFrame = NodalFrame::cartesian);

}  // namespace felloe
