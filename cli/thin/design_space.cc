// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/thin/design_space.h"

#include <algorithm>

#include "mesher/error.h"
#include "mesher/wheel_mesh.h"

namespace felloe {
namespace {

void add_stations(DesignSpace &space, const Case &c, const WheelLayout &first) {
  const ThinInput &t = c.thin;
  const auto &bends = first.disc_features;
  if (bends.size() < 2) throw Error("thin: the disc needs two bends or more");
  // beyond the hub face and what is rated half a thickness outside of it
  const double s0 = std::max(bends.front().s0,
                             first.hub_face_s + 0.51 * first.disc.thickness().at(first.hub_face_s));
  const double s1 = bends.back().s0;
  // the fillet covers the flange's end face; mesher/layout_check.cc
  const double leg = c.wheel.weld.leg;
  const double low = std::max(t.smallest_thickness_mm, 1.01 * t.tolerance_mm);
  for (int i = 0; i < t.stations; ++i) {
    const double s = s0 + (s1 - s0) * i / (t.stations - 1);
    const bool flange = i + 1 == t.stations;
    space.station_s.push_back(s);
    space.station_r.push_back(first.disc.meridian().at(s).rz[0]);
    const std::string name = i == 0   ? "thickness of hub (base sheet)"
                             : flange ? "thickness of flange"
                                      : "thickness at s " + std::to_string(s).substr(0, 5) + " mm";
    space.variables.push_back(
        {name, first.disc.thickness().at(s),
         flange ? std::max(low, 0.51 * leg + t.tolerance_mm) : low,
         flange ? std::min(t.largest_thickness_mm, leg / 0.6) : t.largest_thickness_mm});
  }
}

void add_limits(DesignSpace &space, const ThinInput &t) {
  const int n = static_cast<int>(space.n_stations());
  for (int i = 0; i + 1 < n; ++i)
    for (const double sign : {1.0, -1.0})
      space.linear.push_back({{{i + 1, sign}, {i, -sign}},
                              t.largest_slope * (space.station_s[i + 1] - space.station_s[i])});
  for (int i = 1; i < n; ++i) {
    space.linear.push_back({{{i, 1}, {0, -1}}, 0});
    space.linear.push_back({{{0, 1 - t.largest_thinning_percent / 100}, {i, -1}}, 0});
  }
}

void add_shape(DesignSpace &space, const Case &c) {
  const double range = c.thin.shape_range_percent / 100;
  const auto add = [&](const std::string &name, double value) {
    space.variables.push_back({name, value, (1 - range) * value, (1 + range) * value});
  };
  if (c.thin.bend_radii)
    for (std::size_t i = 0; i + 1 < c.wheel.disc.meridian.size(); ++i) {
      space.bends.push_back(static_cast<int>(i));
      add("bend radius at corner " + std::to_string(i + 1), c.wheel.disc.meridian[i].bend_radius);
    }
  if (c.thin.vent_diameter && c.wheel.vents.count > 0) {
    space.vent_diameter = true;
    add("vent diameter", c.wheel.vents.diameter);
  }
}

}  // namespace

std::vector<double> DesignSpace::start() const {
  std::vector<double> x;
  for (const Variable &v : variables) x.push_back(std::clamp(v.start, v.low, v.high));
  return x;
}

Wheel DesignSpace::wheel_of(const std::vector<double> &x, double less) const {
  Wheel w = wheel;
  w.disc.thickness = {{0, x[0] - less}};
  for (std::size_t i = 0; i < n_stations(); ++i)
    w.disc.thickness.push_back({station_s[i], x[i] - less});
  std::size_t next = n_stations();
  for (const int corner : bends) w.disc.meridian[corner].bend_radius = x[next++];
  if (vent_diameter) w.vents.diameter = x[next++];
  return w;
}

DesignSpace design_space(const Case &c) {
  if (c.wheel.construction != Construction::welded_disc)
    throw Error("thin: the case is a plain disc; only welded wheels have rig tests to pass");
  if (c.tests.empty()) throw Error("thin: the case has no [[rig_test]]: any thickness would do");
  if (c.hub.contact)
    throw Error(
        "thin: [hub] contact = true: sensitivities need a bonded hub; leave the key out and "
        "run the result with contact afterwards");
  if (c.press_fit.contact)
    throw Error(
        "thin: [press_fit] contact = true: sensitivities need a tied press fit; leave the key out "
        "and run the result with contact afterwards");
  DesignSpace space;
  space.wheel = c.wheel;
  const WheelLayout first = layout(c.wheel);
  add_stations(space, c, first);
  add_limits(space, c.thin);
  add_shape(space, c);
  for (const Variable &v : space.variables)
    if (v.low > v.high)
      throw Error("[thin] " + v.name + ": no room between " + std::to_string(v.low) + " and " +
                  std::to_string(v.high) + " mm; widen the bounds or change the weld's leg");
  return space;
}

double disc_mass(const Case &c, const Wheel &wheel) {
  const PartVolumes v = exact_volumes(layout(wheel));
  return v.disc * c.disc_material.density + v.weld * c.weld_material.density;
}

}  // namespace felloe
