// SPDX-License-Identifier: GPL-3.0-or-later
// Effective notch stress of the ring fillet: a plane section through disc flange, weld and rim with
// the toe and the root rounded, under unit stresses of the sheets.
#pragma once
#include <array>
#include <vector>

#include "mesher/vec3.h"

namespace felloe {

/// The lap joint, idealised: two straight sheets on each other with an open slit between them, and
/// a fillet that covers the whole end face of the disc flange.
struct WeldJoint {
  double disc_thickness = 0, rim_thickness = 0;  ///< [mm]
  double leg = 0;                                ///< of the fillet along the rim [mm]
  double radius = 1;                             ///< fictitious one at toe and root [mm]
};

/// Structural stresses that the joint is driven by, each 1 MPa on the face at the weld's side
/// (eta = -1): membrane and bending of the disc flange in front of the weld, of the rim in front
/// of its toe. The rim on the other side carries what remains.
enum class JointStress { disc_membrane, disc_bending, rim_membrane, rim_bending };
constexpr int n_joint_stresses = 4;

/// A point on a rounded notch.
struct NotchPoint {
  Vec2 at{};  ///< along the sheets from the root, positive over the weld; inwards from the rim
  double angle = 0;                               ///< along the notch from its start [rad]
  std::array<double, n_joint_stresses> factor{};  ///< stress along the surface over the structural
};

struct WeldNotches {
  std::vector<NotchPoint> toe, root;  ///< toe on the rim; root of the slit
  int cells = 0;
  double residual = 0, balance_error = 0;  ///< the worst of the four solves
};

/// Solves the section in plane strain with quadratic elements (HarmonicModel far from the axis).
/// The toe's circle touches both faces; the root's circle ends at the root, so that it does not cut
/// into the throat (IIW recommendations, from memory). Disc toe: its corner is convex, no notch.
/// @param cells_per_15_degrees  of the circles; 1 is within 2 % of 2
/// Throws Error naming the value when the joint cannot hold circles of that radius.
WeldNotches weld_notches(const WeldJoint &, int cells_per_15_degrees = 1);

}  // namespace felloe
