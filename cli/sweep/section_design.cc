// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sweep/section_design.h"

#include <cmath>

#include "cli/sweep/test_figures.h"
#include "cli/test_turns.h"
#include "mesher/wheel_mesh.h"
#include "post/section_rating.h"
#include "post/worst_first.h"
#include "solver/harmonic_loads.h"

namespace felloe {
namespace {

/// Last harmonic of the rolling load: its cosine arc falls like n^-2, the rim's answer faster.
/// Beyond it the demo wheel's hot spots change by 0.2 % at most. Sixteen harmonics fill two SIMD
/// registers.
constexpr int last_harmonic = 15;

/// Preload of all bolts as a ring over their seats, shaped as a cosine square, so that nothing
/// jumps when the seats move over the mesh.
HarmonicLoad ring_clamp(const SectionMesh &mesh, const BoltHoles &bolts, double force) {
  const double r0 = 0.5 * bolts.pitch_circle_diameter,
               reach = std::max(bolts.seat_diameter, bolts.diameter);
  const auto push = [r0, reach](double size) -> HarmonicTraction {
    return [r0, reach, size](const Vec2 &rz, const Vec2 &) {
      const double x = (rz[0] - r0) / reach;
      const double shape = std::abs(x) < 1 ? std::pow(std::cos(0.5 * pi * x), 2) : 0;
      return HarmonicVector{0, 0, -size * shape};
    };
  };
  HarmonicLoad load;
  load.name = "bolt clamp";
  load.tractions = {{"disc outboard side", push(1)}};
  const double unit = -section_resultant(mesh, load).force;
  load.tractions = {{"disc outboard side", push(unit > 0 ? force / unit : 0)}};
  return load;
}

struct SectionSolutions {
  std::vector<HarmonicSolution> steady;     ///< press fit, clamp
  std::vector<HarmonicSolution> inflation;  ///< or empty
  std::vector<HarmonicSolution> rolling;    ///< harmonics of the unit force
  HarmonicSolution moment, push, shift;     ///< rim held, unit loads on the hub
};

SectionSolutions solved(const SectionMesh &mesh, const Case &c, const PartMaterials &materials) {
  const HarmonicModel model(mesh, materials);
  std::vector<HarmonicLoad> loads;
  const bool radial = std::any_of(c.tests.begin(), c.tests.end(),
                                  [](const RigTest &t) { return t.kind == RigTestKind::radial; });
  if (c.press_fit.interference_mm > 0)
    loads.push_back(section_press_fit(0.5 * c.press_fit.interference_mm));
  if (c.wheel.bolts.count > 0)
    loads.push_back(ring_clamp(mesh, c.wheel.bolts, c.wheel.bolts.count * bolt_preload_of(c)));
  const std::size_t n_steady = loads.size();
  if (radial && c.tyre.inflation_kPa > 0)
    loads.push_back(section_inflation(mesh, 1e-3 * c.tyre.inflation_kPa, c.tyre.outer_radius_mm));
  const std::size_t n_inflated = loads.size();
  if (radial)
    for (HarmonicLoad &load :
         section_radial_load(mesh, unit_force, c.radial.half_angle_deg, last_harmonic))
      loads.push_back(std::move(load));
  HarmonicSupports hub_held;
  hub_held.adapter_edge = "hub face";
  hub_held.adapter_held = true;
  std::vector<HarmonicSolution> all = model.solve(hub_held, loads);
  SectionSolutions s;
  const auto begin = std::make_move_iterator(all.begin());
  s.steady.assign(begin, begin + static_cast<long>(n_steady));
  s.inflation.assign(begin + static_cast<long>(n_steady), begin + static_cast<long>(n_inflated));
  s.rolling.assign(begin + static_cast<long>(n_inflated), std::make_move_iterator(all.end()));
  HarmonicSupports rim_held;
  rim_held.held.push_back({"flange inboard", {true, true, true}, {}});
  rim_held.adapter_edge = "hub face";
  all = model.solve(rim_held, {section_adapter_moment(unit_moment), section_axial_force(unit_force),
                               section_lateral_force(unit_force)});
  s.moment = std::move(all[0]);
  s.push = std::move(all[1]);
  s.shift = std::move(all[2]);
  return s;
}

std::vector<const HarmonicSolution *> pointers(const std::vector<HarmonicSolution> &solutions) {
  std::vector<const HarmonicSolution *> p;
  for (const HarmonicSolution &s : solutions) p.push_back(&s);
  return p;
}

TestFigures rated(const Case &c, const WheelLayout &layout, const SectionPoints &points,
                  const SectionSolutions &s, const RigTest &test) {
  const bool bending = test.kind == RigTestKind::rotating_bending;
  const RatingRules rules = rating_rules(c);
  const double required = required_cycles(test, rated_load_of(c));
  const double share = test_load(test, c) / (bending ? unit_moment : unit_force);
  std::vector<const HarmonicSolution *> steady = pointers(s.steady);
  if (!bending)
    for (const HarmonicSolution *p : pointers(s.inflation)) steady.push_back(p);
  const TurnHistory turn =
      bending ? section_bending_turn(test.name, points, steady, s.moment, share)
              : section_rolling_turn(test.name, points, steady, pointers(s.rolling), share,
                                     c.radial.positions_per_turn);
  const auto places = section_places(layout, points, bending ? Held::rim : Held::hub,
                                     toe_read_out(c.rating.toe_read_out));
  std::vector<HotSpot> spots =
      hot_spots(layout, points.mesh, places, turn, place_ratings(points.mesh, places, turn, rules),
                rules, required);
  sort_and_number(spots);
  return test_figures(test.name, spots, required);
}

}  // namespace

DesignFigures section_figures(const Case &c) {
  DesignFigures f;
  const Progress watch(true);
  const WheelLayout shape = layout(c.wheel);
  const SectionMesh mesh = section_mesh(shape, mesh_size(c.mesh.density));
  const SectionPoints points = section_points(shape, mesh, c.disc_material);
  const PartMaterials materials = {
      {Part::disc, c.disc_material}, {Part::rim, c.rim_material}, {Part::weld, c.weld_material}};
  const PartVolumes volume = exact_volumes(shape);
  f.disc_mass_kg = volume.disc * c.disc_material.density;
  f.mass_kg =
      f.disc_mass_kg + volume.rim * c.rim_material.density + volume.weld * c.weld_material.density;
  f.dofs = 3 * static_cast<long>(mesh.nodes.size());
  f.setup_seconds = watch.total_seconds();
  const SectionSolutions s = solved(mesh, c, materials);
  f.tilt_Nm_per_deg = 1e-3 * unit_moment / (s.moment.adapter_rotation * 180 / pi);
  f.axial_N_per_mm = unit_force / s.push.adapter_motion;
  f.radial_N_per_mm = unit_force / s.shift.adapter_motion;
  const double solved_at = watch.total_seconds();
  f.solve_seconds = solved_at - f.setup_seconds;
  for (const RigTest &test : c.tests) f.tests.push_back(rated(c, shape, points, s, test));
  f.verdict = verdict_of(f.tests);
  f.rating_seconds = watch.total_seconds() - solved_at;
  return f;
}

}  // namespace felloe
