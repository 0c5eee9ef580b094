// SPDX-License-Identifier: GPL-3.0-or-later
// results.json: everything that a run found, for machines.
#pragma once
#include <string>

#include "post/results.h"

namespace felloe {

/// Raised when a key changes its meaning or goes away; new keys do not raise it.
constexpr int results_schema_version = 1;

/// The text of results.json: UTF-8, keys in a fixed order, units in the key names, numbers in the
/// shortest form that reads back to the same double.
///
///   schema_version, program{name, version}, title, case, survival_percent,
///   verdict, mesh{cells, dofs, min_scaled_jacobian, volume_mm3, exact_volume_mm3},
///   mesh_convergence{coarse_cells, fine_cells, coarse_dofs, fine_dofs, size_ratio,
///     spots[{test, feature, coarse_MPa, fine_MPa, order, error_percent}]} or null,
///   solver{path, reason, processes, predicted_seconds, measured_seconds, predicted_bytes,
///     measured_bytes},
///   mass_kg, mass_parts{disc_kg, rim_kg}, balance{static_g_mm, couple_g_mm2},
///   stiffness{tilt_Nm_per_deg, axial_N_per_mm, radial_N_per_mm, torsion_Nm_per_deg,
///     matrix[6][6]}, modes[{held, frequency_Hz, effective_mass_kg[3]}],
///   load_cases[{name, kind, applied{force_N[3], moment_Nm[3]}, balance_error, residual,
///     iterations, seconds}],
///   hot_spots[{id, feature, test, r_mm, theta_deg, z_mm, position_mm[3], side, mean_MPa,
///     amplitude_MPa, fully_reversed_MPa, allowed_MPa, utilisation_percent, error_percent,
///     criterion, curve, life_p50, life_design, required_cycles, verdict, notes[]}],
///   tests[{name, kind, load, load_unit, required_cycles, life_design, utilisation_percent,
///   verdict,
///     source, confidence}],
///   gauges[], assumptions[], cautions[], times{wall_s, processor_s, writing_wall_s,
///     writing_processor_s, steps[{step, writes, wall_s, processor_s}]} or
///     null
///
/// Lives (life_p50, life_design) [cycles]: a number, the string "infinite", or null when not rated.
/// hot_spots: those that fail first, shortest life first, then by utilisation: share of the allowed
/// stress, over 100 where the place fails. tests[].life_design: the shortest of all places, which
/// in a test that passes need not be that of the largest utilisation. stiffness.matrix: force and
/// moment on the hub adapter by its shift and turn about the origin of the wheel frame, order x, y,
/// z, about x, y, z, in N/mm, N and N mm/rad; the other stiffnesses are those of one load alone.
/// modes[].held: "free" or "hub". Numbers that were not computed are null: stiffness of 0, negative
/// error_percent, not-a-number. verdict: "pass", "fail" or "not rated"; the one at the top is that
/// of the worst rig test.
std::string results_json(const Results &);

/// "fail" when a rig test failed, "not rated" when one was not rated or there is none, else "pass".
Verdict overall_verdict(const Results &);

}  // namespace felloe
