// SPDX-License-Identifier: GPL-3.0-or-later
// What a wheel is: section, thickness, holes, weld, rim. Plain values, lengths in mm, angles in
// degrees, exactly as the engineer states them.
#pragma once
#include <string>
#include <vector>

namespace felloe {

enum class Construction { welded_disc, disc_only };

/// A corner of the disc's mid-line. The mid-line starts at the bore edge in the hub plane (z = 0)
/// and runs through these corners; z counts from the mid-line at the hub, outboard positive.
struct MeridianPoint {
  double r = 0;            ///< radius [mm]; ignored when on_rim
  double z = 0;            ///< height over the hub's mid-line [mm]
  double bend_radius = 0;  ///< mid-line radius of the bend at this corner [mm]; 0 only at the ends
  bool on_rim = false;     ///< the radius follows from the rim: flange outside = rim inside
};

/// Sheet thickness at the arc length s of the mid-line, counted from the bore. Linear between
/// stations, constant outside them.
struct ThicknessStation {
  double s = 0;          ///< [mm]
  double thickness = 0;  ///< [mm]
};

struct DiscShape {
  double bore_diameter = 0;             ///< [mm]
  double hub_face_diameter = 0;         ///< outer diameter of the face on the hub [mm]
  std::vector<MeridianPoint> meridian;  ///< corners after the bore edge
  std::vector<ThicknessStation> thickness;
};

/// Bolt holes lie in the flat hub. A cone seat is cut from the outboard side.
struct BoltHoles {
  int count = 0;                     ///< 0: none
  double pitch_circle_diameter = 0;  ///< [mm]
  double diameter = 0;               ///< [mm]
  double seat_cone_angle = 0;        ///< included angle [deg]; 0: flat seat
  double seat_diameter = 0;          ///< on the outboard side [mm]
};

/// Round vent holes, punched square to the mid-surface at their centre.
struct VentHoles {
  int count = 0;                     ///< 0: none
  double pitch_circle_diameter = 0;  ///< circle of the centres on the mid-surface [mm]
  double diameter = 0;               ///< [mm]
  double phase = 0;                  ///< angle of the first centre against the first bolt [deg]
};

/// Rolled rim by an open-standard contour.
struct RimShape {
  std::string contour;       ///< a name of rim_contours(), for example "J"
  double diameter_code = 0;  ///< for example 15
  double width_code = 0;     ///< for example 6
  double thickness = 0;      ///< [mm]
  double inset = 0;          ///< hub face to the rim's mid-plane [mm]; positive: hub face outboard
};

/// Ring fillet between the inboard end face of the disc flange and the rim's inner side. It covers
/// the whole end face (leg on the disc = flange thickness).
struct RingWeld {
  double leg = 0;  ///< leg along the rim [mm]
};

struct Wheel {
  Construction construction = Construction::welded_disc;
  DiscShape disc;
  BoltHoles bolts;
  VentHoles vents;
  RimShape rim;   ///< welded disc only
  RingWeld weld;  ///< welded disc only
};

}  // namespace felloe
