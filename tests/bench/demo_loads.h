// SPDX-License-Identifier: GPL-3.0-or-later
// The demo wheel's loads, solved as a run solves them, with the time of every part.
#pragma once
#include <string>
#include <utility>
#include <vector>

#include "cli/analysis.h"

namespace felloe::bench {

/// Wall times of one or several solves.
struct SolveTimes {
  long dofs = 0;
  int loads = 0;
  int sectors = 1;
  double total = 0;  ///< mesh to displacements, stresses not counted [s]
  double assembly = 0, factor = 0, solve = 0, stresses = 0;  ///< [s]
  double entries = 0;                                        ///< of the largest factor
  double residual = 0;                                       ///< largest relative residual
};

/// A case meshed with another density.
struct MeshedCase {
  Case input;
  Analysis analysis;
  double mesh_seconds = 0;
};
MeshedCase meshed_case(const std::string &file, double density);

/// Smallest density in steps of 0.05 from 1 with at least so many unknowns.
double density_for(const std::string &file, long least_dofs);

/// Everything that a run of the case solves: press fit on the body without weld; clamp, inflation
/// and the radial load at every position of one sector with the hub held; moments about both axes
/// with the rim held. Three factors.
SolveTimes all_loads(const MeshedCase &, SolvePath);

/// Every harmonic of the section: clamp, press fit, inflation, rolling load, moments and forces on
/// the hub; the shortest of several repetitions.
struct SectionTimes {
  long dofs = 0;
  double solve = 0;  ///< assembly, factors and solutions [s]
  double whole = 0;  ///< with mesh and rating [s]
};
SectionTimes section_times(const std::string &file);

/// Twenty natural frequencies with the hub held [s]; the highest frequency [Hz].
std::pair<double, double> modes_times(const MeshedCase &);

/// Radial loads evenly over one turn, hub held: assembly, one factor, n_loads right-hand sides.
SolveTimes radial_loads(const MeshedCase &, int n_loads, SolvePath);

/// Loads that are tractions on surfaces, for a body held at the inboard flange alone: what a
/// general library can solve without rigid adapter and ties. Clamp, inflation, radial positions,
/// and two moments as axial traction on the hub face.
std::vector<LoadCase> surface_loads(const MeshedCase &);
Supports flange_held();

/// The surface loads on the mesh with quadratic geometry.
SolveTimes flange_held_loads(const MeshedCase &, SolvePath);

}  // namespace felloe::bench
