// SPDX-License-Identifier: GPL-3.0-or-later
// From the layout to the meshes: the disc's chart swept through the thickness, flange, fillet and
// rim revolved; and the same section for the axisymmetric model.
#pragma once
#include "mesher/chart_mesh.h"
#include "mesher/layout.h"
#include "mesher/mesh.h"

namespace felloe {

/// The 3D wheel. Named surfaces: "hub face", "bore", "bolt hole k", "bolt seat k", "vent hole k",
/// "disc outboard side", "disc inboard side", "outer edge" (disc only), and for welded discs
/// "flange overlap disc", "flange overlap rim", "weld face", "rim tyre side", "rim inner side",
/// "bead seat outboard", "bead seat inboard", "flange outboard", "flange inboard", "well".
/// The sides of disc and rim hold every face on them; hub face, overlap, bead seats, flanges, well
/// and flat bolt seats are parts of these. The rim's inner side ends where the weld covers it.
/// Named lines: "hub face border", "bolt edge outboard k", "bolt edge inboard k", "vent edge
/// outboard k", "vent edge inboard k", "weld toe disc", "weld toe rim", "weld root",
/// "outer edge mid-line" (disc only).
/// Throws Error when the scaled Jacobian falls below 0.2 or the volume is off by 0.5 %.
Mesh wheel_mesh(const WheelLayout &, const MeshSize &);

/// The (r, z) section without holes, for the harmonic model, with the same names.
SectionMesh section_mesh(const WheelLayout &, const MeshSize &);

/// Exact volume [mm3] of the shape by Pappus and the holes' own integrals, parts separately:
/// disc (holes cut out), rim, weld.
struct PartVolumes {
  double disc = 0, rim = 0, weld = 0;
  double total() const { return disc + rim + weld; }
};
PartVolumes exact_volumes(const WheelLayout &);

}  // namespace felloe
