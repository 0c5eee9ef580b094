// SPDX-License-Identifier: GPL-3.0-or-later
// The rated places of a wheel under its rig tests, each as one smooth number against its limit.
#pragma once
#include <string>
#include <vector>

#include "cli/thin/rig_loads.h"
#include "post/rated_places.h"

namespace felloe {

/// A place under one rig test. Its stress is a mean of all its points, weighted with
/// exp(200 s / s_max): points within 1 % of the worst one count, so that nothing jumps when another
/// point becomes the worst; equal points, as symmetry makes them, give their own stress.
struct PlaceStress {
  std::string feature, test;
  std::size_t test_number = 0;
  double stress = 0;             ///< weighted mean, fully reversed amplitude [MPa]
  double largest = 0;            ///< of the worst point [MPa]
  double allowed = 0;            ///< whose design life is the required one [MPa]
  double r = 0;                  ///< of the worst point [mm]
  std::vector<double> gradient;  ///< of stress; empty: not asked for or far from the limit

  double share() const { return stress / allowed; }
};

/// Points of a place with the weight of each in the change of PlaceStress::stress.
struct PlacePoints {
  RatedPlace place;  ///< only the points that count
  Part part = Part::disc;
  std::vector<double> weight;
};

/// Fully reversed stress of all points of a place: its nodes, or its toe points.
std::vector<double> point_stresses(const RatedPlace &, const TurnHistory &, const RatingRules &);

/// All places; `points` gets one entry each.
std::vector<PlaceStress> place_stresses(const Case &, const MeshedWheel &,
                                        const std::vector<std::vector<Solution>> &,
                                        std::vector<PlacePoints> &points);

}  // namespace felloe
