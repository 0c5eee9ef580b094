// SPDX-License-Identifier: GPL-3.0-or-later
// The numbers of a disc that may change, and what sheet and forming allow.
#pragma once
#include <vector>

#include "cli/case.h"
#include "cli/thin/optimum.h"

namespace felloe {

/// Thickness at stations: the first is the base sheet, which hub and hub face keep; the last one
/// holds over flange bend and flange, which sits on a cylinder. Behind them bend radii and the vent
/// diameter where the case lets them vary.
struct DesignSpace {
  std::vector<Variable> variables;
  std::vector<LinearLimit> linear;  ///< slope of thickness, thinning by forming
  std::vector<double> station_s;    ///< [mm]
  std::vector<double> station_r;    ///< [mm]
  std::vector<int> bends;           ///< meridian points whose radius varies
  bool vent_diameter = false;
  Wheel wheel;

  std::size_t n_stations() const { return station_s.size(); }
  std::vector<double> start() const;
  /// The wheel, all sheet thinner by `less` [mm].
  Wheel wheel_of(const std::vector<double> &x, double less) const;
};

/// Throws Error when the case is no welded disc, has a hub in contact, or leaves no room.
DesignSpace design_space(const Case &);

/// Mass of disc and weld by the exact volumes [kg].
double disc_mass(const Case &, const Wheel &);

}  // namespace felloe
