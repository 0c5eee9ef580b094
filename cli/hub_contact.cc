// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/hub_contact.h"

#include <algorithm>
#include <cmath>
#include <memory>

#include "cli/unit_solutions.h"
#include "mesher/error.h"

namespace felloe {
namespace {

const char *near_bolts = "hub face near bolts", *near_border = "hub face near its borders";

/// Round a bolt seat the nodes within one thickness may touch and stick: a pressure cone of 45 deg
/// ends there (common practice, no source). Half a thickness more may touch.
constexpr double sticking_thicknesses = 1, touching_thicknesses = 1.5;

HubContact hub_contact(const Analysis &a, const Case &c) {
  HubContact contact;
  contact.touching_nodes = near_bolts;
  if (!line(a.mesh, near_border).empty()) contact.sliding_nodes = near_border;
  if (c.hub.friction_coefficient > 0) contact.friction_coefficient = c.hub.friction_coefficient;
  const double stiffness = bolt_stiffness_of(a, c);
  for (int k = 1; k <= c.wheel.bolts.count; ++k)
    contact.bolts.push_back({"bolt seat " + std::to_string(k), bolt_preload_of(c), stiffness});
  return contact;
}

/// A wheel held in one way, with the loads of all its tests.
struct HeldWheel {
  std::unique_ptr<ContactModel> model;
  ContactState clamped;
  bool inflated = false;
  int n_positions = 1;  ///< inside one sector
};

int positions_in_sector(const Analysis &a, const Case &c) {
  return (c.radial.positions_per_turn + a.mesh.symmetry - 1) / a.mesh.symmetry;
}

double step_angle(const Analysis &a, const Case &c) {
  return 2 * pi / (a.mesh.symmetry * positions_in_sector(a, c));
}

HeldWheel held_for(RigTestKind kind, const Analysis &a, const Case &c, const ElasticModel &model) {
  HeldWheel held;
  held.n_positions = positions_in_sector(a, c);
  HubContact contact = hub_contact(a, c);
  Supports supports;
  std::vector<LoadCase> loads;
  if (kind == RigTestKind::rotating_bending) {
    supports.held.push_back({"flange inboard", {true, true, true}, {}});
    for (const double angle : {0.0, pi / 2}) loads.push_back(adapter_moment(unit_moment, angle));
  } else {
    contact.adapter_free = {};
    for (int k = 0; k < held.n_positions; ++k)
      loads.push_back(
          radial_load(a.layout, a.mesh, unit_force, c.radial.half_angle_deg, k * step_angle(a, c)));
    held.inflated = c.tyre.inflation_kPa > 0;
    if (held.inflated)
      loads.push_back(
          inflation(a.layout, a.mesh, 1e-3 * c.tyre.inflation_kPa, c.tyre.outer_radius_mm));
  }
  held.model = std::make_unique<ContactModel>(a.mesh, model, supports, contact, loads);
  held.clamped = held.model->clamped();
  return held;
}

/// Of the unit loads: the tyre, and the test's load at a position inside the sector or, for a
/// moment, at any angle.
std::vector<double> factors(const HeldWheel &held, RigTestKind kind, double size, int position,
                            double angle, bool with_tyre) {
  if (kind == RigTestKind::rotating_bending)
    return {size * std::cos(angle), size * std::sin(angle)};
  std::vector<double> f(held.n_positions, 0.0);
  f[position] = size;
  if (held.inflated) f.push_back(with_tyre ? 1 : 0);
  return f;
}

void add_state(const ContactState &s, ContactFigures &f) {
  for (const double force : s.bolt_force) {
    f.smallest_bolt_force_N = std::min(f.smallest_bolt_force_N, force);
    f.largest_bolt_force_N = std::max(f.largest_bolt_force_N, force);
  }
  f.open_share = std::max(f.open_share, s.open_share);
  f.largest_pressure_MPa =
      std::max(f.largest_pressure_MPa, *std::max_element(s.pressure.begin(), s.pressure.end()));
  double across = 0, along = 0;
  Vec3 sum{};
  for (const Vec3 &force : s.face_force) {
    across += std::hypot(force[0], force[1]);
    along += std::abs(force[2]);
    sum = add(sum, force);
  }
  if (!(along > 0)) return;
  f.shear_over_pressure = std::max(f.shear_over_pressure, across / along);
  f.friction_needed = std::max(f.friction_needed, std::hypot(sum[0], sum[1]) / along);
}

/// What friction carries, and what it could: of the resultant force in the face and of the moment
/// about the axis, each on its own. Slip counts from the tightened bolts.
void add_friction(const ContactModel &model, const Mesh &mesh, const ContactState &clamped,
                  const ContactState &s, FrictionFigures &f) {
  double force_bound = 0, moment_bound = 0, moment = 0;
  Vec3 force{};
  int pressed = 0, slipping = 0;
  for (std::size_t i = 0; i < s.pressure.size(); ++i) {
    if (!s.sticks[i] || !(s.pressure[i] > 0)) continue;
    const Vec3 &x = mesh.nodes[model.nodes()[i]];
    const double bound = f.coefficient * s.pressure[i] * model.areas()[i];
    force_bound += bound;
    moment_bound += bound * std::hypot(x[0], x[1]);
    force = add(force, s.face_force[i]);
    moment += cross(x, s.face_force[i])[2];
    ++pressed;
    if (s.slips[i]) ++slipping;
    f.largest_slip_mm = std::max(f.largest_slip_mm, norm(subtract(s.slip[i], clamped.slip[i])));
  }
  if (pressed > 0)
    f.slipping_share = std::max(f.slipping_share, static_cast<double>(slipping) / pressed);
  const double across = std::hypot(force[0], force[1]);
  constexpr double rounding = 1e-9;
  if (across > rounding * force_bound)
    f.slip_margin = std::min(f.slip_margin, force_bound / across);
  if (std::abs(moment) > rounding * moment_bound)
    f.slip_margin = std::min(f.slip_margin, moment_bound / std::abs(moment));
}

ContactFigures first_figures(const HeldWheel &held, const std::string &test) {
  ContactFigures f;
  f.test = test;
  f.preload_N = f.smallest_bolt_force_N = f.largest_bolt_force_N = held.clamped.bolt_force.front();
  f.open_share_clamped = held.clamped.open_share;
  return f;
}

std::vector<Solution> solved(Analysis &a, const ElasticModel &model, const HeldWheel &held,
                             const std::vector<LoadCase> &loads, Progress &progress) {
  const double before = progress.total_seconds();
  std::vector<Solution> all = model.solve(held.model->supports(), loads);
  report_load_cases(a, loads, all, progress.total_seconds() - before);
  return all;
}

std::string degrees(double angle) { return std::to_string(angle * 180 / pi).substr(0, 5); }

/// Whole states at every position of the sector.
void step(Analysis &a, const ElasticModel &model, const HeldWheel &held, const std::string &name,
          const std::vector<ContactState> &states, double angle, ContactTest &test,
          ContactFigures &figures, Progress &progress) {
  std::vector<LoadCase> loads;
  for (std::size_t k = 0; k < states.size(); ++k)
    loads.push_back(held.model->load_case(
        states[k], name + ", contact at " + degrees(static_cast<double>(k) * angle) + " deg"));
  test.units = solved(a, model, held, loads, progress);
  for (std::size_t k = 0; k < states.size(); ++k)
    figures.smallest_gap_elsewhere_mm =
        std::min(figures.smallest_gap_elsewhere_mm,
                 held.model->smallest_gap_elsewhere(states[k], test.units[k]));
}

/// The clamped wheel, and what unit loads change.
void superpose(Analysis &a, const ElasticModel &model, const HeldWheel &held,
               const std::string &name, RigTestKind kind, const ContactState &tight,
               ContactTest &test, ContactFigures &figures, Progress &progress) {
  std::vector<LoadCase> loads{held.model->load_case(tight, name + ", clamped")};
  const bool bending = kind == RigTestKind::rotating_bending;
  for (int k = 0; k < (bending ? 2 : held.n_positions); ++k) {
    const auto unit = factors(held, kind, 1, k, k * pi / 2, false);
    loads.push_back(held.model->load_case(held.model->change(tight, unit),
                                          name + ", unit load " + std::to_string(k + 1)));
  }
  test.superposed = true;
  std::vector<Solution> all = solved(a, model, held, loads, progress);
  figures.smallest_gap_elsewhere_mm = held.model->smallest_gap_elsewhere(tight, all.front());
  test.tight.push_back(std::move(all.front()));
  test.units.assign(std::make_move_iterator(all.begin() + 1), std::make_move_iterator(all.end()));
}

/// One state an angle of the sector; with friction, what it does.
std::vector<ContactState> states_of(const Analysis &a, const Case &c, const HeldWheel &held,
                                    const RigTest &rig, double size, const ContactState &tight,
                                    ContactFigures &figures) {
  SteppedSector sector;
  try {
    sector = step_sector(
        *held.model, held.clamped, tight,
        [&](int k) { return factors(held, rig.kind, size, k, k * step_angle(a, c), true); },
        held.n_positions);
  } catch (const Error &e) {
    throw Error(c.file + ": rig test '" + rig.name + "': " + e.what());
  }
  if (!(c.hub.friction_coefficient > 0)) return std::move(sector.states);
  FrictionFigures &f = figures.friction;
  f.coefficient = c.hub.friction_coefficient;
  f.sectors_stepped = sector.passes;
  f.unsettled = sector.unsettled;
  for (const ContactState &s : sector.states) add_friction(*held.model, a.mesh, held.clamped, s, f);
  return std::move(sector.states);
}

ContactTest turned(Analysis &a, const Case &c, const ElasticModel &model, const HeldWheel &held,
                   const RigTest &rig, double size, Progress &progress) {
  ContactTest test;
  ContactFigures figures = first_figures(held, rig.name);
  ContactState tight = held.clamped;
  if (held.inflated) {
    auto tyre = factors(held, rig.kind, 0, 0, 0, true);
    tight = held.model->loaded(held.clamped, tyre);
  }
  const std::vector<ContactState> states = states_of(a, c, held, rig, size, tight, figures);
  for (int k = 0; k < held.n_positions; ++k) {
    const double angle = k * step_angle(a, c);
    add_state(states[k], figures);
    if (k % std::max(1, held.n_positions / 3) == 0)  // a few angles tell
      figures.superposition_error =
          std::max(figures.superposition_error,
                   superposition_error(
                       tight, states[k],
                       held.model->change(tight, factors(held, rig.kind, size, k, angle, false))));
  }
  figures.superposed = figures.superposition_error <= largest_superposition_error;
  if (figures.superposed)
    superpose(a, model, held, rig.name, rig.kind, tight, test, figures, progress);
  else
    step(a, model, held, rig.name, states, step_angle(a, c), test, figures, progress);
  progress.remark("open " + std::to_string(std::lround(100 * figures.open_share)) + " %, " +
                  (figures.superposed ? "superposed" : "stepped"));
  a.results.contact.push_back(figures);
  return test;
}

}  // namespace

double bolt_stiffness_of(const Analysis &a, const Case &c) {
  if (c.hub.bolt_stiffness_N_per_mm > 0) return c.hub.bolt_stiffness_N_per_mm;
  if (!(c.clamp.thread.diameter > 0)) return 0;
  return bolt_stiffness(c.clamp.thread, a.layout.disc.thickness().at(0));
}

void name_touching_nodes(Analysis &a, const Case &c) {
  const BoltHoles &bolts = c.wheel.bolts;
  const double seat = 0.5 * std::max(bolts.seat_diameter, bolts.diameter);
  const double t = a.layout.disc.thickness().at(0), border = 0.5 * c.wheel.disc.hub_face_diameter;
  const double bore = 0.5 * c.wheel.disc.bore_diameter, circle = 0.5 * bolts.pitch_circle_diameter;
  const double outer_band = 0.5 * (border + circle), inner_band = bore + 0.25 * (circle - bore);
  std::vector<int> &sticking = a.mesh.lines[near_bolts], &sliding = a.mesh.lines[near_border];
  for (const int n : surface_nodes(a.mesh, "hub face")) {
    const Vec3 &x = a.mesh.nodes[n];
    double distance = border;
    for (const Hole &hole : a.layout.bolts) {
      const Vec3 centre = a.layout.disc.position(hole.s, hole.theta, -1);
      distance = std::min(distance, std::hypot(x[0] - centre[0], x[1] - centre[1]));
    }
    if (distance < seat + sticking_thicknesses * t)
      sticking.push_back(n);
    else if (const double r = std::hypot(x[0], x[1]);
             distance < seat + touching_thicknesses * t || r > outer_band || r < inner_band)
      sliding.push_back(n);
  }
}

double superposition_error(const ContactState &clamped, const ContactState &loaded,
                           const ContactState &change) {
  double wrong = 0, moved = 0;
  for (std::size_t i = 0; i < loaded.face_force.size(); ++i) {
    const Vec3 found = subtract(loaded.face_force[i], clamped.face_force[i]);
    wrong += norm(subtract(found, change.face_force[i]));
    moved += norm(found);
  }
  return moved > 0 ? wrong / moved : 0;
}

std::vector<ContactTest> contact_tests(Analysis &a, const Case &c, const ElasticModel &model,
                                       Progress &progress) {
  std::vector<ContactTest> all(c.tests.size());
  for (const RigTestKind kind : {RigTestKind::radial, RigTestKind::rotating_bending}) {
    std::unique_ptr<HeldWheel> held;
    for (std::size_t i = 0; i < c.tests.size(); ++i) {
      if (c.tests[i].kind != kind) continue;
      const bool bending = kind == RigTestKind::rotating_bending;
      if (!held) {
        progress.step(std::string("hub contact, ") + (bending ? "rim held" : "hub held"));
        held = std::make_unique<HeldWheel>(held_for(kind, a, c, model));
        progress.remark(std::to_string(held->model->nodes().size()) + " nodes");
      }
      progress.step("hub contact: " + c.tests[i].name);
      const RatedLoad load = rated_load_of(c);
      const double size = bending ? bending_moment(c.tests[i], load) / unit_moment
                                  : radial_force(c.tests[i], load) / unit_force;
      all[i] = turned(a, c, model, *held, c.tests[i], size, progress);
    }
  }
  return all;
}

}  // namespace felloe
