// SPDX-License-Identifier: GPL-3.0-or-later
// What one analysis needs, as plain values.
#pragma once
#include <array>
#include <string>
#include <vector>

#include "mesher/wheel.h"
#include "post/rated_places.h"
#include "post/rig_tests.h"
#include "post/sn_curve.h"
#include "solver/cost_model.h"
#include "solver/load_kinds.h"
#include "solver/material.h"

namespace felloe {

struct BoltClampInput {
  double torque_Nm = 0;
  BoltThread thread;
  double thread_friction = 0, seat_friction = 0;
  double preload_N = 0;  ///< given directly instead of torque; 0: from torque
};

struct HubInput {
  bool contact = false;                ///< the hub face touches the adapter; no: it is bonded to it
  double bolt_stiffness_N_per_mm = 0;  ///< of one bolt; 0: from its thread
  double friction_coefficient = 0;     ///< of face and adapter; 0: sticking has no limit
};

struct PressFitInput {
  double interference_mm = 0;  ///< on diameter; 0: none
  bool contact = false;        ///< disc and rim may part; else they are tied
};

struct TyreInput {
  double static_radius_mm = 0, dynamic_radius_mm = 0, outer_radius_mm = 0;
  double inflation_kPa = 0;
};

struct RadialLoadInput {
  double half_angle_deg = 40;
  int positions_per_turn = 72;
};

struct RatingInput {
  double survival_percent = 90;
  std::string criterion;
  std::string mean_stress;  ///< rule for criteria of normal stress
  double roughness_rz_um = 0;
  double sheared_edge_factor = 0;
  std::string vent_edges, bolt_edges, burr_side;
  std::string surface;  ///< finish of the sheet
  bool notch_support = false;
  std::string weld_class;
  std::string toe_read_out;          ///< of the structural stress at weld toes
  std::string weld_residual_stress;  ///< decides what the stress ratio counts at welds
};

/// An S-N curve of the user's own.
struct CurveInput {
  Surface use_for = Surface::parent;
  SnCurve curve;
};

/// A strain gauge on the disc or rim; microstrain 0 and an empty test: nothing was measured.
struct GaugeInput {
  std::string name;
  std::string side;
  double r_mm = 0, s_mm = 0;  ///< one of the two: radius, or length along the mid-line
  double theta_deg = 0, direction_deg = 0, grid_length_mm = 0;
  std::string measured_test;
  double measured_mean_microstrain = 0, measured_amplitude_microstrain = 0;
};

/// Turns of the wheel on the road under one pair of forces.
struct SpectrumInput {
  std::string name;
  double radial_N = 0, lateral_N = 0, turns = 0;
  std::string time_series;  ///< table of angle and forces instead; empty: constant forces
};

struct MeshInput {
  double density = 1;
  double accuracy_percent = 0;  ///< wanted accuracy of hot-spot stress; 0: no demand
  SolverChoice solver = SolverChoice::automatic;
};

struct ModesInput {
  int count = 0;  ///< natural frequencies wanted of each way to hold the wheel; 0: none
};

/// What `felloe thin` may do to the disc.
struct ThinInput {
  int stations = 6;  ///< of thickness, hub and flange counted
  double smallest_thickness_mm = 2, largest_thickness_mm = 8;
  double largest_slope = 0.02;           ///< of thickness along the meridian [mm/mm]
  double largest_thinning_percent = 25;  ///< against the base sheet, which the hub keeps
  double tolerance_mm = 0.1;             ///< by which the sheet may be thinner than stated
  bool bend_radii = false, vent_diameter = false;  ///< vary too
  double shape_range_percent = 15;                 ///< of those, each way
  std::vector<double> gauges_mm;                   ///< base sheets on sale; empty: any
};

/// Where a disc without rim is held, and how its hub is loaded (construction "disc only").
enum class OuterEdge { held, simply_supported, free };

/// Loads of a plain disc (construction "disc only"); zero: not applied.
struct PlateLoads {
  double hub_moment_Nm = 0;  ///< tilting moment on the rigid hub
  double hub_force_N = 0;    ///< axial force on the rigid hub
  double pressure_MPa = 0;   ///< on the outboard side, acting inboard
};

struct Case {
  std::string title;  ///< free text
  std::string file;   ///< path as given
  Wheel wheel;
  Material disc_material, rim_material, weld_material;
  std::array<std::string, 3> material_rows;  ///< table row of disc, rim, weld; empty: own values
  double rated_load_kg = 0;
  BoltClampInput clamp;
  HubInput hub;
  PressFitInput press_fit;
  TyreInput tyre;
  RadialLoadInput radial;
  std::vector<RigTest> tests;          ///< rows of the table with the case's own values put in
  std::vector<std::string> test_rows;  ///< table row that each test started from; empty: none
  RatingInput rating;
  std::vector<GaugeInput> gauges;
  std::vector<SpectrumInput> spectrum;
  std::vector<CurveInput> curves;  ///< in place of the program's
  MeshInput mesh;
  ModesInput modes;
  ThinInput thin;
  OuterEdge outer_edge = OuterEdge::held;
  PlateLoads plate;
};

}  // namespace felloe
