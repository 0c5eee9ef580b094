// SPDX-License-Identifier: GPL-3.0-or-later
// Virtual strain gauges: what a grid glued to the sheet would measure.
#pragma once
#include <string>
#include <vector>

#include "mesher/mesh.h"
#include "mesher/sheet.h"
#include "post/stress_sum.h"
#include "post/turn_history.h"
#include "solver/material.h"

namespace felloe {

/// Where a gauge sits and which way its grid runs.
struct GaugePlace {
  Part part = Part::disc;  ///< disc or rim
  double s = 0;            ///< length along the mid-line [mm]
  double theta = 0;        ///< [rad]
  double eta = 1;          ///< +1 or -1: the side
  double direction = 0;    ///< from the meridian (growing s) towards growing theta [rad]
  double grid_length = 0;  ///< [mm]; 0: a point
};

/// Mean strain of the grid [-] as a sum over nodal stresses, weights in 1/MPa. Three Gauss points
/// along the grid, quadratic between the nodes of the sheet's face, Hooke's law: exact for strains
/// that change by a fifth power along the grid.
struct StrainGauge : StressSum {
  Vec3 position{};  ///< middle of the grid [mm]
};

/// Error ("where: ...") when the middle or an end of the grid does not lie on the meshed face.
StrainGauge strain_gauge(const Mesh &, const Sheet &, const GaugePlace &, const Material &);

/// All s at which the sheet's side has this radius, ascending.
std::vector<double> lengths_at_radius(const Sheet &, double r, double eta);

/// Microstrain over one turn: half sum and half range of the trace, trace at even angles from 0.
struct GaugeReading {
  double mean = 0, amplitude = 0;
  std::vector<double> trace;
};
GaugeReading reading(const StrainGauge &, const TurnHistory &);

}  // namespace felloe
