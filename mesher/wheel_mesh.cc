// SPDX-License-Identifier: GPL-3.0-or-later
// The gate that every wheel mesh passes before it is handed on.
#include "mesher/wheel_mesh.h"

#include <cmath>
#include <cstdio>

#include "mesher/error.h"
#include "mesher/mesh_quality.h"
#include "mesher/sweep.h"

namespace felloe {
namespace {

void check_part(const Mesh &mesh, Part part, const std::string &name, double exact) {
  const MeshQuality q = part_quality(mesh, part);
  char text[160];
  if (q.min_scaled_jacobian < 0.2 || q.min_jacobian_at_gauss_points <= 0) {
    const Vec3 p = mesh.position(q.worst_cell, {0.5, 0.5, 0.5});
    std::snprintf(text, sizeof text,
                  "its worst cell (radius %.1f mm, %.1f degrees, z %.1f mm) has a scaled Jacobian "
                  "of %.2f, at least 0.20 is needed",
                  std::hypot(p[0], p[1]), std::atan2(p[1], p[0]) * 180 / pi, p[2],
                  q.min_scaled_jacobian);
    throw Error("mesh of the " + name + ": " + text + "; raise the mesh density or ease the shape");
  }
  if (std::abs(q.volume / exact - 1) > 0.005) {
    std::snprintf(text, sizeof text,
                  "its volume is off the exact one by %.2f %%, 0.5 %% is allowed",
                  100 * (q.volume / exact - 1));
    throw Error("mesh of the " + name + ": " + text + "; raise the mesh density");
  }
}

}  // namespace

Mesh wheel_mesh(const WheelLayout &layout, const MeshSize &size) {
  Mesh mesh = sweep(layout, chart_mesh(layout, size), size);
  const PartVolumes exact = exact_volumes(layout);
  check_part(mesh, Part::disc, "disc", exact.disc);
  if (layout.wheel.construction == Construction::disc_only) return mesh;
  check_part(mesh, Part::rim, "rim", exact.rim);
  check_part(mesh, Part::weld, "weld", exact.weld);
  return mesh;
}

}  // namespace felloe
