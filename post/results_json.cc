// SPDX-License-Identifier: GPL-3.0-or-later
// results.json: everything that a run found, for machines.
#include "post/results_json.h"

#include <cmath>
#include <nlohmann/json.hpp>

namespace felloe {
namespace {

using Json = nlohmann::ordered_json;

Json number(double value) { return std::isfinite(value) ? Json(value) : Json(nullptr); }

Json computed(double value) { return value == 0 ? Json(nullptr) : number(value); }

/// A probability; negative: not known.
Json share(double value) { return value < 0 ? Json(nullptr) : number(value); }

/// A share in per cent; zero: not known.
Json percent(double share) { return share > 0 ? number(100 * share) : Json(nullptr); }

Json vector3(const Vec3 &v) { return Json::array({number(v[0]), number(v[1]), number(v[2])}); }

// Fixed words: they are part of the contract of the file, whatever the terminal prints.
const char *verdict_word(Verdict verdict) {
  switch (verdict) {
    case Verdict::pass:
      return "pass";
    case Verdict::fail:
      return "fail";
    case Verdict::not_rated:
      break;
  }
  return "not rated";
}

Json life(double cycles, Verdict verdict) {
  if (verdict == Verdict::not_rated || std::isnan(cycles)) return nullptr;
  return std::isinf(cycles) ? Json("infinite") : Json(cycles);
}

Json mesh_json(const MeshFigures &m) {
  return {{"cells", m.cells},
          {"dofs", m.dofs},
          {"min_scaled_jacobian", number(m.min_scaled_jacobian)},
          {"volume_mm3", number(m.volume_mm3)},
          {"exact_volume_mm3", computed(m.exact_volume_mm3)}};
}

Json convergence_json(const MeshConvergence &c) {
  Json spots = Json::array();
  for (const SpotOnMeshes &s : c.spots)
    spots.push_back({{"test", s.test},
                     {"feature", s.feature},
                     {"coarse_MPa", number(s.coarse_MPa)},
                     {"fine_MPa", number(s.fine_MPa)},
                     {"order", number(s.order)},
                     {"error_percent", number(s.error_percent)}});
  return {{"coarse_cells", c.coarse_cells},     {"fine_cells", c.fine_cells},
          {"coarse_dofs", c.coarse_dofs},       {"fine_dofs", c.fine_dofs},
          {"size_ratio", number(c.size_ratio)}, {"spots", spots}};
}

Json solver_json(const SolverFigures &s) {
  return {{"path", s.path},
          {"reason", s.reason},
          {"processes", s.processes},
          {"predicted_seconds", computed(s.predicted_seconds)},
          {"measured_seconds", computed(s.measured_seconds)},
          {"predicted_bytes", computed(s.predicted_bytes)},
          {"measured_bytes", computed(s.measured_bytes)}};
}

Json matrix_json(const std::array<std::array<double, 6>, 6> &m) {
  if (m[0][0] == 0) return nullptr;
  Json rows = Json::array();
  for (const auto &row : m) {
    Json entries = Json::array();
    for (const double v : row) entries.push_back(number(v));
    rows.push_back(std::move(entries));
  }
  return rows;
}

Json mode_json(const NaturalMode &m) {
  return {{"held", m.held},
          {"frequency_Hz", number(m.frequency_Hz)},
          {"effective_mass_kg", vector3(m.effective_mass_kg)}};
}

Json friction_json(const FrictionFigures &f) {
  if (f.coefficient == 0) return nullptr;
  return {
      {"coefficient", number(f.coefficient)},         {"slipping_share", number(f.slipping_share)},
      {"largest_slip_mm", number(f.largest_slip_mm)}, {"slip_margin", number(f.slip_margin)},
      {"sectors_stepped", f.sectors_stepped},         {"unsettled_share", number(f.unsettled)}};
}

Json contact_json(const ContactFigures &c) {
  return {{"test", c.test},
          {"open_share_clamped", number(c.open_share_clamped)},
          {"open_share", number(c.open_share)},
          {"bolt_preload_N", number(c.preload_N)},
          {"smallest_bolt_force_N", number(c.smallest_bolt_force_N)},
          {"largest_bolt_force_N", number(c.largest_bolt_force_N)},
          {"largest_clamp_loss_N", number(c.preload_N - c.smallest_bolt_force_N)},
          {"largest_pressure_MPa", number(c.largest_pressure_MPa)},
          {"shear_over_pressure", number(c.shear_over_pressure)},
          {"friction_needed", number(c.friction_needed)},
          {"smallest_gap_elsewhere_mm", number(c.smallest_gap_elsewhere_mm)},
          {"superposed", c.superposed},
          {"superposition_error", number(c.superposition_error)},
          {"friction", friction_json(c.friction)}};
}

Json load_case_json(const LoadCaseFigures &c) {
  return {{"name", c.name},
          {"kind", c.kind},
          {"applied", {{"force_N", vector3(c.force_N)}, {"moment_Nm", vector3(c.moment_Nm)}}},
          {"balance_error", number(c.balance_error)},
          {"residual", number(c.residual)},
          {"iterations", c.iterations},
          {"seconds", number(c.seconds)}};
}

Json hot_spot_json(const HotSpot &h) {
  return {{"id", h.id},
          {"feature", h.feature},
          {"test", h.test},
          {"r_mm", number(h.r)},
          {"theta_deg", number(h.theta_deg)},
          {"z_mm", number(h.z)},
          {"position_mm", vector3(h.position)},
          {"side", h.side},
          {"mean_MPa", number(h.mean)},
          {"amplitude_MPa", number(h.amplitude)},
          {"fully_reversed_MPa", number(h.fully_reversed)},
          {"allowed_MPa", h.allowed > 0 ? number(h.allowed) : Json(nullptr)},
          {"utilisation_percent", percent(utilisation(h))},
          {"error_percent", h.error_percent < 0 ? Json(nullptr) : number(h.error_percent)},
          {"criterion", h.criterion},
          {"curve", h.curve},
          {"life_p50", life(h.life_p50, h.verdict)},
          {"life_design", life(h.life_design, h.verdict)},
          {"required_cycles", number(h.required_cycles)},
          {"verdict", verdict_word(h.verdict)},
          {"survival_at_required", share(h.survival)},
          {"notes", h.notes}};
}

Json test_json(const TestVerdict &t) {
  return {{"name", t.name},
          {"kind", t.kind},
          {"load", number(t.load)},
          {"load_unit", t.load_unit},
          {"required_cycles", number(t.required_cycles)},
          {"life_design", life(t.life_design, t.verdict)},
          {"utilisation_percent", percent(t.utilisation)},
          {"verdict", verdict_word(t.verdict)},
          {"source", t.source},
          {"confidence", t.confidence},
          {"wheels", t.wheels},
          {"pass_probability", share(t.pass_probability)},
          {"pass_probability_lognormal", share(t.pass_lognormal)},
          {"pass_probability_weibull", share(t.pass_weibull)},
          {"scatter_source", t.scatter_source},
          {"failure_criterion", t.failure_criterion}};
}

Json spectrum_json(const SpectrumPlace &p) {
  return {{"feature", p.feature},
          {"side", p.side},
          {"r_mm", number(p.r)},
          {"theta_deg", number(p.theta_deg)},
          {"z_mm", number(p.z)},
          {"curve", p.curve},
          {"damage", number(p.damage)},
          {"passes_to_failure", p.damage > 0 ? number(1 / p.damage) : Json("infinite")},
          {"block", p.block},
          {"block_share", number(p.block_share)},
          {"largest_range_MPa", number(p.largest_range_MPa)},
          {"largest_range_mean_MPa", number(p.largest_mean_MPa)}};
}

Json sensitivity_json(const Sensitivity &s) {
  return {{"change", s.change},
          {"test", s.test},
          {"life_design", life(s.life_design, s.verdict)},
          {"life_ratio", number(s.life_ratio)},
          {"verdict", verdict_word(s.verdict)}};
}

Json gauge_json(const GaugeFigures &g) {
  const auto measured = [&](double value) { return g.measured ? number(value) : Json(nullptr); };
  return {{"name", g.name},
          {"test", g.test},
          {"side", g.side},
          {"r_mm", number(g.r)},
          {"theta_deg", number(g.theta_deg)},
          {"z_mm", number(g.z)},
          {"mean_microstrain", number(g.mean_microstrain)},
          {"amplitude_microstrain", number(g.amplitude_microstrain)},
          {"measured_mean_microstrain", measured(g.measured_mean_microstrain)},
          {"measured_amplitude_microstrain", measured(g.measured_amplitude_microstrain)}};
}

Json picture_json(const PictureFile &p) {
  return {{"file", p.file}, {"test", p.test}, {"view", p.view}, {"alt", p.alt}};
}

Json colour_scale_json(const ColourScaleFigures &s) {
  if (s.maximum <= 0) return nullptr;
  return {{"quantity", s.quantity}, {"unit", s.unit}, {"minimum", 0}, {"maximum", s.maximum}};
}

Json step_json(const StepTime &t) {
  return {{"step", t.step},
          {"writes", t.writes},
          {"wall_s", number(t.wall_s)},
          {"processor_s", number(t.processor_s)}};
}

template <class T, class Function>
Json list(const std::vector<T> &items, Function &&as_json) {
  Json out = Json::array();
  for (const T &item : items) out.push_back(as_json(item));
  return out;
}

Json times_json(const RunTimes &t) {
  if (t.steps.empty()) return nullptr;
  return {{"wall_s", number(t.wall_s)},
          {"processor_s", number(t.processor_s)},
          {"writing_wall_s", number(t.writing_wall_s)},
          {"writing_processor_s", number(t.writing_processor_s)},
          {"steps", list(t.steps, step_json)}};
}

}  // namespace

Verdict overall_verdict(const Results &results) {
  Verdict verdict = results.tests.empty() ? Verdict::not_rated : Verdict::pass;
  for (const TestVerdict &t : results.tests) {
    if (t.verdict == Verdict::fail) return Verdict::fail;
    if (t.verdict == Verdict::not_rated) verdict = Verdict::not_rated;
  }
  return verdict;
}

std::string results_json(const Results &r) {
  const Json json = {
      {"schema_version", results_schema_version},
      {"program", {{"name", "felloe"}, {"version", r.program_version}}},
      {"title", r.title},
      {"case", r.case_file},
      {"survival_percent", number(r.survival_percent)},
      {"verdict", verdict_word(overall_verdict(r))},
      {"mesh", mesh_json(r.mesh)},
      {"mesh_convergence",
       r.convergence.spots.empty() ? Json(nullptr) : convergence_json(r.convergence)},
      {"solver", solver_json(r.solver)},
      {"mass_kg", number(r.mass_kg)},
      {"mass_parts", {{"disc_kg", number(r.disc_mass_kg)}, {"rim_kg", number(r.rim_mass_kg)}}},
      {"balance",
       {{"static_g_mm", number(r.static_unbalance_g_mm)},
        {"couple_g_mm2", number(r.couple_unbalance_g_mm2)}}},
      {"stiffness",
       {{"tilt_Nm_per_deg", computed(r.stiffness.tilt_Nm_per_deg)},
        {"axial_N_per_mm", computed(r.stiffness.axial_N_per_mm)},
        {"radial_N_per_mm", computed(r.stiffness.radial_N_per_mm)},
        {"torsion_Nm_per_deg", computed(r.stiffness.torsion_Nm_per_deg)},
        {"matrix", matrix_json(r.stiffness.matrix)}}},
      {"modes", list(r.modes, mode_json)},
      {"contact", list(r.contact, contact_json)},
      {"load_cases", list(r.load_cases, load_case_json)},
      {"hot_spots", list(r.hot_spots, hot_spot_json)},
      {"tests", list(r.tests, test_json)},
      {"gauges", list(r.gauges, gauge_json)},
      {"spectrum_turns", computed(r.spectrum_turns)},
      {"spectrum", list(r.spectrum, spectrum_json)},
      {"sensitivities", list(r.sensitivities, sensitivity_json)},
      {"assumptions", r.assumptions},
      {"cautions", r.cautions},
      {"pictures", list(r.pictures, picture_json)},
      {"colour_scale", colour_scale_json(r.colour_scale)},
      {"times", times_json(r.times)}};
  // Titles come from the user's file: bytes that are no UTF-8 become the replacement character.
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace felloe
