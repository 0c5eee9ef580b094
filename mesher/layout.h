// SPDX-License-Identifier: GPL-3.0-or-later
// Everything about a wheel's shape that follows from its description: the disc and rim sheets in
// the wheel frame, features with names, and the check that the shape can exist.
#pragma once
#include <string>
#include <vector>

#include "mesher/sheet.h"
#include "mesher/wheel.h"

namespace felloe {

/// A stretch of a sheet's mid-line that the trade has a word for.
struct Feature {
  std::string name;  ///< "nave bend", "crown bend", "flange bend", "bead seat outboard", ...
  double s0 = 0, s1 = 0;
};

/// A round hole of the disc: axis through the mid-surface point (s, theta) along the sheet normal.
struct Hole {
  std::string name;         ///< "bolt hole 1", "vent hole 3" (numbers count with theta)
  double s = 0, theta = 0;  ///< centre on the mid-surface [mm], [rad]
  double radius = 0;        ///< cylinder [mm]
  double cone_eta = 1;      ///< the seat cone starts at this eta ...
  double cone_radius = 0;   ///< ... and reaches this radius at eta = 1 [mm]; 0: no cone
  /// Radius of the wall at eta [mm].
  double wall_radius(double eta) const {
    return cone_radius > 0 && eta > cone_eta
               ? radius + (cone_radius - radius) * (eta - cone_eta) / (1 - cone_eta)
               : radius;
  }
};

struct WheelLayout {
  Wheel wheel;
  Sheet disc;  ///< s from the bore edge; eta = +1 outboard / towards the rim
  Sheet rim;   ///< s from the outboard flange edge to the inboard one; eta = +1 tyre side
  std::vector<Feature> disc_features;  ///< bends in order of s
  std::vector<Feature> rim_features;   ///< flanges, bead seats, well, rim bends
  std::vector<Hole> bolts, vents;      ///< all copies, ascending theta from the first
  double hub_face_s = 0;               ///< s of the border of the hub face
  double flange_s0 = 0;                ///< s where the straight flange on the rim starts (overlap)
  double rim_overlap_s0 = 0;           ///< rim s that faces flange_s0
  double rim_weld_root_s = 0;          ///< rim s of the weld root (faces the flange end)
  double rim_weld_toe_s = 0;           ///< rim s of the toe on the rim
  int symmetry = 1;  ///< the shape repeats under a turn of 2 pi / symmetry (0: any)
};

/// Derives the layout and checks it: holes inside their band, ligaments of at least one thickness,
/// bends that fit, flange that meets the rim well, weld on straight stretches, no self-contact.
/// Throws Error that lists every problem found, one a line, each naming feature, value, limit and
/// remedy.
WheelLayout layout(const Wheel &wheel);

}  // namespace felloe
