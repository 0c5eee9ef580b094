// SPDX-License-Identifier: GPL-3.0-or-later
// The wheel loads on the section, as Fourier amplitudes.
#pragma once
#include <vector>

#include "mesher/mesh.h"
#include "solver/harmonic_model.h"

namespace felloe {

/// Radial interference [mm] between disc flange and rim, n = 0.
HarmonicLoad section_press_fit(double radial_interference);

/// Pressure [MPa] on the tyre side between the beads and the beads' axial push, as inflation() on
/// 3D meshes does; n = 0. tyre_outer_radius [mm], 0: no push.
HarmonicLoad section_inflation(const SectionMesh &, double pressure, double tyre_outer_radius);

/// Moment [N mm] that tilts the hub adapter, u_z = r cos theta, n = 1. It is the moment vector
/// (0, -moment, 0) of the wheel frame.
HarmonicLoad section_adapter_moment(double moment);

/// Axial force [N], n = 0, or lateral force along theta = 0, n = 1, on the hub adapter.
HarmonicLoad section_axial_force(double force);
HarmonicLoad section_lateral_force(double force);

/// Fourier integral of the cosine arc over +- phi0 = half_angle [deg]:
///   integral of cos(pi phi / (2 phi0)) cos(n phi) = 2 k cos(n phi0) / (k^2 - n^2), k = pi / (2
///   phi0)
double arc_integral(int n, double half_angle);

/// Radial load [N] centred at theta = 0 as harmonics 0 ... n_last: both bead seats, equal halves,
/// radially inwards. The first harmonic carries exactly the load, along -x.
std::vector<HarmonicLoad> section_radial_load(const SectionMesh &, double load, double half_angle,
                                              int n_last = 16);

/// What tractions, body and ring forces amount to. n = 0: axial force [N] and moment about the axis
/// [N mm]; n = 1: force along theta = 0 and moment as in section_adapter_moment; else zero.
struct HarmonicResultant {
  double force = 0, moment = 0;
};
HarmonicResultant section_resultant(const SectionMesh &, const HarmonicLoad &);

}  // namespace felloe
