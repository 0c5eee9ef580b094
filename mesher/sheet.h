// SPDX-License-Identifier: GPL-3.0-or-later
// A sheet of revolution: mid-line plus thickness law, and the chart in which it is meshed.
#pragma once
#include <utility>
#include <vector>

#include "mesher/meridian.h"
#include "mesher/wheel.h"

namespace felloe {

/// Piecewise linear thickness over the arc length, constant beyond the end stations.
class ThicknessLaw {
 public:
  ThicknessLaw() = default;
  explicit ThicknessLaw(std::vector<ThicknessStation> stations);
  double at(double s) const;  ///< [mm]
  double largest() const;
  const std::vector<ThicknessStation> &stations() const { return stations_; }

 private:
  std::vector<ThicknessStation> stations_;  // ascending in s
};

/// Chart coordinates are (sigma, theta) with sigma(s) = integral of ds / r: the map to the
/// mid-surface is conformal (angles in the chart are angles on the sheet), a turn of the wheel is
/// a translation in theta. eta in [-1, 1] runs through the thickness along the mid-line's normal.
class Sheet {
 public:
  Sheet() = default;
  Sheet(Meridian meridian, ThicknessLaw thickness);
  const Meridian &meridian() const { return meridian_; }
  const ThicknessLaw &thickness() const { return thickness_; }
  double length() const { return meridian_.length(); }
  double sigma(double s) const;     ///< [-], exact: closed forms on straights and arcs
  double s_at(double sigma) const;  ///< inverse of sigma, to 1e-13 relative
  Vec2 section_point(double s, double eta) const;           ///< (r, z) [mm]
  Vec3 position(double s, double theta, double eta) const;  ///< [mm]
  Vec3 normal(double s, double theta) const;                ///< mid-surface unit normal (eta > 0)

 private:
  Meridian meridian_;
  ThicknessLaw thickness_;
  std::vector<double> sigma_at_piece_;  // sigma at the start of every piece, and at the end
};

}  // namespace felloe
