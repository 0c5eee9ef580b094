// SPDX-License-Identifier: GPL-3.0-or-later
// The kinds of wheel loads as rows of one table, and their builders.
#pragma once
#include <string>
#include <vector>

#include "mesher/layout.h"
#include "mesher/mesh.h"
#include "solver/load_case.h"

namespace felloe {

/// A parameter of a table row: key with unit suffix, allowed range, default.
struct Parameter {
  std::string key, summary, unit;
  double smallest = 0, largest = 0;
  double standard = 0;  ///< default value
  bool required = false;
};

struct LoadKind {
  std::string name, summary;
  std::vector<Parameter> parameters;
  std::string source, confidence;
};

/// bolt clamp, press fit, inflation, radial load, cornering moment, (unit loads for stiffness).
const std::vector<LoadKind> &load_kinds();

/// Preload of one bolt [N] from tightening torque.
///   F = T / (0.16 P + 0.58 d2 mu_G + D_Km/2 mu_K / sin(cone angle / 2))
/// Source: VDI 2230 (from memory), cone term derived. torque [N mm], lengths [mm], angle [deg],
/// 180 or 0 for a flat seat.
struct BoltThread {
  double diameter = 0, pitch = 0;                                        ///< d, P [mm]
  double pitch_diameter() const { return diameter - 0.649519 * pitch; }  ///< d2 [mm]
  double minor_diameter() const { return diameter - 1.226869 * pitch; }  ///< d3 [mm]
  double stress_area() const;                                            ///< A_s [mm2]
};
double bolt_preload(double torque, const BoltThread &, double thread_friction, double seat_friction,
                    double seat_mean_diameter, double seat_cone_angle);
/// Preload at 90 % of yield with torsion [N]; VDI 2230 (from memory). yield [MPa].
double bolt_preload_at_yield(const BoltThread &, double yield_strength, double thread_friction,
                             double utilisation = 0.9);
/// Tightening torque for a preload [N mm].
double bolt_torque(double preload, const BoltThread &, double thread_friction, double seat_friction,
                   double seat_mean_diameter, double seat_cone_angle);
/// Largest extra axial force of one bolt of a ring from a moment, 4 M / (n PCD) [N].
double bolt_force_from_moment(double moment, int count, double pitch_circle_diameter);

/// Preload of every bolt spread evenly on its seat, direction -z, rescaled to the exact axial sum;
/// the opposite force and moment act on the hub adapter, so that the clamp balances itself.
LoadCase bolt_clamp(const WheelLayout &, const Mesh &, double preload);
/// Radial interference [mm] between disc flange and rim.
LoadCase press_fit(double radial_interference);
/// Pressure [MPa] on the rim's tyre side between the beads plus the axial push of the beads on
/// both flanges: W_f = pi (a^2 - r_f^2) p / 2 each, a = tyre outer radius [mm]; 0: no bead push.
LoadCase inflation(const WheelLayout &, const Mesh &, double pressure, double tyre_outer_radius);
/// Radial load [N] on both bead seats in equal halves: p = p0 cos(pi phi / (2 phi0)) over
/// +- phi0 = half_angle [deg] about the direction [rad], acting radially inwards, rescaled so that
/// each half carries exactly load / 2 in that direction and nothing across it.
LoadCase radial_load(const WheelLayout &, const Mesh &, double load, double half_angle,
                     double direction);
/// Unit moment about the in-plane axis at the angle [rad] on the hub adapter: moment vector
/// (cos, sin, 0) x moment [N mm].
LoadCase adapter_moment(double moment, double angle);
/// Force on the adapter [N], for stiffness.
LoadCase adapter_force(const Vec3 &force);

/// The same loads on the section, one HarmonicLoad each, live in harmonic_loads.h.

}  // namespace felloe
