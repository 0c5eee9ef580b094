// SPDX-License-Identifier: GPL-3.0-or-later
// Everything a run found, as plain values: results.json, the summary and the pictures read this.
#pragma once
#include <array>
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
  double required_cycles = 0, life_design = 0;
  Verdict verdict = Verdict::not_rated;
  std::string source, confidence;
};

struct Results {
  std::string program_version, title, case_file;
  MeshFigures mesh;
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
  std::vector<std::string> assumptions;  ///< factors with source and confidence
  std::vector<std::string> cautions;
};

/// The cautions that every report carries.
std::vector<std::string> standing_cautions();

}  // namespace felloe
