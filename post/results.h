// SPDX-License-Identifier: GPL-3.0-or-later
// Everything a run found, as plain values: results.json, the summary and the pictures read this.
#pragma once
#include <array>
#include <limits>
#include <string>
#include <vector>

#include "mesher/vec3.h"
#include "post/rating.h"

namespace felloe {

struct MeshFigures {
  long cells = 0, dofs = 0;
  double min_scaled_jacobian = 0, volume_mm3 = 0, exact_volume_mm3 = 0;
};

/// How the unit loads were solved, on the finest mesh. Zero: not known.
struct SolverFigures {
  std::string path;    ///< "matrix free", or "direct" with what one factor stood for
  std::string reason;  ///< why this one
  int processes = 1;   ///< that solved
  double predicted_seconds = 0, measured_seconds = 0;
  double predicted_bytes = 0, measured_bytes = 0;  ///< on top of the mesh; measured: this process
};

struct WheelStiffness {  ///< rim held at its inboard flange; zero: not computed
  double tilt_Nm_per_deg = 0, axial_N_per_mm = 0, radial_N_per_mm = 0, torsion_Nm_per_deg = 0;
  /// Force and moment on the hub by its motion, about the origin; rows and columns x, y, z, about
  /// x, y, z [N/mm, N, N mm/rad].
  std::array<std::array<double, 6>, 6> matrix{};
};

struct NaturalMode {
  std::string held;  ///< "free", or "hub": hub face held
  double frequency_Hz = 0;
  Vec3 effective_mass_kg{};  ///< moved by a shake along x, y, z
};

/// Coulomb friction of the hub face under one rig test, over one turn.
struct FrictionFigures {
  double coefficient = 0;      ///< 0: the face sticks without limit, and the rest means nothing
  double slipping_share = 0;   ///< of the pressed nodes that rub; at the worst angle
  double largest_slip_mm = 0;  ///< of a pressed node, since the bolts were tightened
  double slip_margin =         ///< force or moment about the axis that friction could carry over
      std::numeric_limits<double>::infinity();  ///< what it does; at the worst angle
  int sectors_stepped = 0;                      ///< until the forces on the face repeat
  double unsettled = 0;  ///< what the last sector changed of them, as a share
};

/// The hub face under one rig test, over one turn.
struct ContactFigures {
  std::string test;
  double open_share_clamped = 0, open_share = 0;  ///< of the face; at the worst angle
  double preload_N = 0, smallest_bolt_force_N = 0, largest_bolt_force_N = 0;
  double largest_pressure_MPa = 0;
  double shear_over_pressure = 0;  ///< sum of all forces in the face over that of all on it
  double friction_needed = 0;      ///< the same of their resultant in the face
  double smallest_gap_elsewhere_mm =
      1e9;                         ///< of nodes that were not watched; < 0: they would enter
  bool superposed = false;         ///< unit solutions; else every angle on its own
  double superposition_error = 0;  ///< share of the face's forces
  FrictionFigures friction;
};

struct LoadCaseFigures {
  std::string name, kind;
  Vec3 force_N{}, moment_Nm{};
  double balance_error = 0, residual = 0;
  int iterations = 0;  ///< 0: direct solver
  double seconds = 0;
};

struct TestVerdict {
  std::string name, kind;
  double load = 0;  ///< [N m] or [N]
  std::string load_unit;
  double required_cycles = 0, life_design = 0;  ///< the shortest of all places
  double utilisation = 0;                       ///< of the worst place [-]; 0: not rated
  Verdict verdict = Verdict::not_rated;
  std::string source, confidence;
  int wheels = 1;
  /// That all wheels pass, by the place likeliest to fail: with the scatter's own law, and with
  /// either law of the same standard deviation; negative: not rated.
  double pass_probability = -1, pass_lognormal = -1, pass_weibull = -1;
  std::string scatter_source, failure_criterion;
};

/// A strain gauge under one rig test, over one turn. The wheel before clamping, pressing and
/// inflating is the zero.
struct GaugeFigures {
  std::string name, test, side;
  double r = 0, theta_deg = 0, z = 0;                      ///< middle of the grid [mm, deg]
  double mean_microstrain = 0, amplitude_microstrain = 0;  ///< half sum and half range
  bool measured = false;
  double measured_mean_microstrain = 0, measured_amplitude_microstrain = 0;
  std::vector<double> trace;  ///< [microstrain] at even angles of the load, from 0
};

/// What one change does to the design life under one test, without another solve.
struct Sensitivity {
  std::string change, test;
  double life_design = 0, life_ratio = 1;  ///< over the life without the change
  Verdict verdict = Verdict::not_rated;
};

/// The most damaged point of a rated place after one pass of the service spectrum.
struct SpectrumPlace {
  std::string feature, side, curve;
  std::string block;  ///< that does most of the damage
  double block_share = 0;
  double r = 0, theta_deg = 0, z = 0;
  double damage = 0;  ///< Miner sum at the asked survival probability; 1 is failure
  double largest_range_MPa = 0, largest_mean_MPa = 0;
};

/// A hot spot on the two nested meshes that gave its error bar.
struct SpotOnMeshes {
  std::string test, feature;
  double coarse_MPa = 0, fine_MPa = 0;  ///< fully reversed stress
  double order = 0;                     ///< of convergence, assumed
  double error_percent = 0;             ///< of the fine one
};

/// Where the error bars come from; no spots: no estimate was asked for or possible.
struct MeshConvergence {
  long coarse_cells = 0, fine_cells = 0, coarse_dofs = 0, fine_dofs = 0;
  double size_ratio = 0;  ///< of the cells along the sheet
  std::vector<SpotOnMeshes> spots;
};

struct PictureFile {
  std::string file;  ///< relative to the result folder
  std::string test;
  std::string view;          ///< "front", "closeup_1", ...; see post/pictures.h
  std::string alt;           ///< what is to be seen, in a sentence
  bool shows_worst = false;  ///< an overview in which the worst place is seen
};

/// What colours mean in all pictures and on screen: from 0 to maximum.
struct ColourScaleFigures {
  std::string quantity, unit;
  double maximum = 0;  ///< 0: nothing to show
};

/// What one step of a run cost, over all meshes together.
struct StepTime {
  std::string step;
  bool writes = false;  ///< fields, pictures, report; false: part of the analysis
  double wall_s = 0;
  double processor_s = 0;  ///< of all threads
};

/// What a run cost; "writing" is all of it that would not be needed for the figures alone.
struct RunTimes {
  std::vector<StepTime> steps;  ///< in the order of their first turn; empty: not measured
  double wall_s = 0, processor_s = 0, writing_wall_s = 0, writing_processor_s = 0;
};

struct Results {
  std::string program_version, title, case_file;
  MeshFigures mesh;
  MeshConvergence convergence;
  SolverFigures solver;
  double mass_kg = 0, disc_mass_kg = 0, rim_mass_kg = 0;
  double static_unbalance_g_mm = 0, couple_unbalance_g_mm2 = 0;
  double survival_percent = 0;
  WheelStiffness stiffness;
  std::vector<NaturalMode> modes;  ///< ascending within each way of holding; empty: not asked for
  std::vector<ContactFigures> contact;  ///< one a rig test; empty: hub bonded
  std::vector<LoadCaseFigures> load_cases;
  std::vector<HotSpot> hot_spots;  ///< worst first
  std::vector<TestVerdict> tests;
  std::vector<GaugeFigures> gauges;
  std::vector<SpectrumPlace> spectrum;     ///< most damaged first; empty: no spectrum
  double spectrum_turns = 0;               ///< of one pass
  std::vector<Sensitivity> sensitivities;  ///< largest change first; empty: not asked for
  std::vector<std::string> assumptions;    ///< factors with source and confidence
  std::vector<std::string> cautions;
  std::vector<PictureFile> pictures;  ///< empty: none were drawn
  ColourScaleFigures colour_scale;
  RunTimes times;
};

/// The cautions that every report carries.
std::vector<std::string> standing_cautions();

}  // namespace felloe
