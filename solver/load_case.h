// SPDX-License-Identifier: GPL-3.0-or-later
// What acts on a body: tractions on named surfaces, body forces, press fit, forces on the hub
// adapter. Plain functions; the assembler never learns what a wheel load is.
#pragma once
#include <functional>
#include <string>
#include <utility>
#include <vector>

#include "mesher/mesh.h"

namespace felloe {

/// Force per area [MPa] at the point x [mm] with outward unit normal n, wheel frame.
using Traction = std::function<Vec3(const Vec3 &x, const Vec3 &n)>;
/// Force per volume [N/mm3] at x [mm].
using BodyForce = std::function<Vec3(const Vec3 &x)>;

struct Resultant {
  Vec3 force{};   ///< [N]
  Vec3 moment{};  ///< about the origin [N mm]
};

struct LoadCase {
  std::string name;  ///< unique in a run, for example "cornering moment x"
  std::string kind;  ///< name of a row of load_kinds()
  std::vector<std::pair<std::string, Traction>> tractions;  ///< by surface name
  BodyForce body_force;                                     ///< empty: none
  double interference = 0;  ///< radial interference of the press fit [mm]
  Resultant adapter;        ///< force and moment on the rigid hub adapter, about the origin
  std::vector<std::pair<int, Vec3>> point_forces;  ///< on single nodes [N]
  /// Displacement of single nodes [mm], on top of their support's own value; only components that
  /// the supports hold may differ from zero. The support forces make it happen.
  std::vector<std::pair<int, Vec3>> held_motion;
};

/// Consistent nodal forces of all tractions and body forces, one Vec3 a node [N]: quadratic shape
/// functions, 4 x 4 Gauss points a face, 3 x 3 x 3 a cell. Their sum and moment equal the
/// quadrature's resultant exactly. Point forces come on top as they are.
std::vector<Vec3> nodal_forces(const Mesh &, const LoadCase &);
/// The same into `forces`, whose memory is used again.
void nodal_forces(const Mesh &, const LoadCase &, std::vector<Vec3> &forces);

/// Force and moment of nodal forces about the origin.
Resultant resultant(const Mesh &, const std::vector<Vec3> &nodal_forces);

}  // namespace felloe
