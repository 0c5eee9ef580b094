// SPDX-License-Identifier: GPL-3.0-or-later
// The stretch of the rim between the beads, found by the names of faces; for 3D and section meshes.
#pragma once
#include <map>
#include <string>
#include <vector>

#include "mesher/mesh.h"

namespace felloe::detail {

using NamedFaces = std::map<std::string, std::vector<CellFace>>;

/// Names whose faces together cover the tyre side, none of them twice. Error when two names overlap
/// in part.
std::vector<std::string> tyre_side_names(const NamedFaces &);

/// Axial stretch from the outer end of one bead seat to that of the other [mm].
struct AxialSpan {
  double low = 0, high = 0;
  /// A wall exactly at an end does not belong to it, whatever its rounding.
  bool contains(double z) const {
    const double rounding = 1e-7 * (high - low);
    return z > low + rounding && z < high - rounding;
  }
};
AxialSpan span_between_beads(const Mesh &);
AxialSpan span_between_beads(const SectionMesh &);

/// Radius at which the beads push: the larger radius of the flanges' tyre side, mean of both [mm].
double flange_load_radius(const Mesh &);
double flange_load_radius(const SectionMesh &);

/// Axial push of one bead: half of the pressure on the ring between the tyre's outer radius a and
/// the flange's load radius, W = pi (a^2 - r_f^2) p / 2 [N]; from memory, published for car wheels.
double bead_push(double pressure, double tyre_outer_radius, double flange_radius);

}  // namespace felloe::detail
