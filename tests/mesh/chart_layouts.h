// SPDX-License-Identifier: GPL-3.0-or-later
// Layouts made by hand for the tests of the chart mesh.
#pragma once
#include <cmath>
#include <numeric>
#include <string>
#include <vector>

#include "mesher/layout.h"

namespace felloe {

inline std::vector<Hole> hole_circle(const Sheet &disc, const std::string &name, int count,
                                     double pitch_circle_diameter, double diameter,
                                     double phase = 0) {
  std::vector<Hole> holes;
  const double s = disc.meridian().first_s_at_radius(0.5 * pitch_circle_diameter);
  for (int k = 0; k < count; ++k) {
    Hole hole;
    hole.name = name + " " + std::to_string(k + 1);
    hole.s = s;
    hole.theta = phase + 2 * pi * k / count;
    hole.radius = 0.5 * diameter;
    holes.push_back(hole);
  }
  return holes;
}

/// A pressed disc for a 15 inch wheel: bore 57, bolt circle 112, nave and crown bends, dish with
/// vents of diameter 28 on 266, flange mid-line at r = 168; 3.8 mm thick. Own example.
inline WheelLayout pressed_disc(int n_bolts = 5, int n_vents = 10, double vent_phase = 0) {
  WheelLayout l;
  l.disc = Sheet(
      Meridian({{{28.5, 0}, 0}, {{84, 0}, 12}, {{104, 29}, 14}, {{168, 8}, 12}, {{168, -20}, 0}}),
      ThicknessLaw({{0, 3.8}}));
  if (n_bolts > 0) l.bolts = hole_circle(l.disc, "bolt hole", n_bolts, 112, 14);
  if (n_vents > 0) l.vents = hole_circle(l.disc, "vent hole", n_vents, 266, 28, vent_phase);
  l.hub_face_s = 75 - 28.5;
  l.flange_s0 = l.disc.meridian().pieces().back().s0;
  l.symmetry = std::gcd(n_bolts, n_vents);
  return l;
}

/// A flat ring plate of thickness 4 from r = inner to r = outer, held nowhere. No hub face.
inline WheelLayout flat_plate(double inner, double outer) {
  WheelLayout l;
  l.wheel.construction = Construction::disc_only;
  l.disc = Sheet(Meridian({{{inner, 0}, 0}, {{outer, 0}, 0}}), ThicknessLaw({{0, 4}}));
  l.flange_s0 = -1;
  l.symmetry = 0;
  return l;
}

}  // namespace felloe
