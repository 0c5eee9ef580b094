// SPDX-License-Identifier: GPL-3.0-or-later
// The wheel that the tests share: 15 x 6 J, inset 40, five bolts, ten vents. An invented design.
#pragma once
#include "mesher/layout.h"

namespace felloe {

inline Wheel reference_wheel() {
  Wheel w;
  w.disc.bore_diameter = 57;
  w.disc.hub_face_diameter = 142;
  w.disc.meridian = {
      {82, 0, 12, false}, {100, 28, 14, false}, {0, 0.5, 12, true}, {0, -22, 0, true}};
  w.disc.thickness = {{0, 3.8}};
  w.bolts = {5, 112, 14, 60, 16.5};
  w.vents = {10, 272, 28, 0};
  w.rim = {"J", 15, 6, 2.5, 40};
  w.weld = {3.8};
  return w;
}

/// The same wheel without holes, for comparison with the harmonic model.
inline Wheel reference_wheel_without_holes() {
  Wheel w = reference_wheel();
  w.bolts = {};
  w.vents = {};
  return w;
}

/// A flat annulus, disc only.
inline Wheel flat_plate(double bore_diameter, double outer_diameter, double thickness) {
  Wheel w;
  w.construction = Construction::disc_only;
  w.disc.bore_diameter = bore_diameter;
  w.disc.meridian = {{0.5 * outer_diameter, 0, 0, false}};
  w.disc.thickness = {{0, thickness}};
  return w;
}

}  // namespace felloe
